module fields.example

go 1.26.0
