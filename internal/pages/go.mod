module boardwrap.example/internal/pages

go 1.26.0

require (
	boardwrap.example v0.0.0
	github.com/yuin/goldmark v1.8.7
)

require golang.org/x/exp v0.0.0-20261113113407-e3970619a1a4 // indirect

replace boardwrap.example => ../..
