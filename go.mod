module mastwright

go 1.26

require (
	github.com/alecthomas/kong v1.17.0 // indirect
	github.com/rogpeppe/go-internal v1.16.0 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
	gopkg.in/yaml.v3 v3.0.1 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
