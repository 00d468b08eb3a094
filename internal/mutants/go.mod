module boardwrap.example/internal/mutants

go 1.26.0
