module boardwrap.example/loops

go 1.26.0
