// Command mastwright designs, checks and makes the raised mount of a satellite receiver.
package main

import (
	"context"
	"os"
	"os/signal"

	"mastwright/app/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := cli.Run(ctx, os.Args[1:], cli.Standard())
	stop()
	os.Exit(code)
}
