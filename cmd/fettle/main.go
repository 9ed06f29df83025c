// Command fettle holds one live model of a vehicle's rebuild.
package main

import (
	"os"

	"fettle/internal/cli"
)

func main() {
	os.Exit(cli.Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
