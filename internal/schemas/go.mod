module boardwrap.example/internal/schemas

go 1.26.0

require (
	boardwrap.example v0.0.0
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.2
)

require (
	golang.org/x/exp v0.0.0-20261113113407-e3970619a1a4 // indirect
	golang.org/x/text v0.14.0 // indirect
)

replace boardwrap.example => ../..
