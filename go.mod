module boardwrap.example

go 1.26.0

require (
	github.com/google/go-cmp v0.7.0
	github.com/leanovate/gopter v0.2.11
	golang.org/x/exp v0.0.0-20261113113407-e3970619a1a4
)
