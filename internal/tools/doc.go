// Package tools is a module of its own, so that who imports the library never
// sees what it is checked with: go.mod names the tools and their versions.
package tools
