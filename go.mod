module seamwright

go 1.26.0

require (
	gonum.org/v1/gonum v0.17.0
	pgregory.net/rapid v1.3.0
)

require golang.org/x/sync v0.25.0 // indirect

require (
	github.com/goccy/go-yaml v1.19.2
	github.com/inconshreveable/mousetrap v1.1.0 // indirect
	github.com/spf13/cobra v1.10.2 // indirect
	github.com/spf13/pflag v1.0.9 // indirect
)
