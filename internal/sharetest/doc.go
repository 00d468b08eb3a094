// Package sharetest holds the test that results may be shared: it asks several at once
// about whatever the library gives. There is no code in it.
package sharetest
