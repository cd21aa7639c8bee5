package cli_test

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"mastwright/app/cli"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"mastwright": func() { os.Exit(cli.Run(context.Background(), os.Args[1:], cli.Standard())) },
	})
}

// designs puts into a script's folder a design whose limits are as wide as they may be, so that nothing fails, and what an edit
// makes of it.
func designs(env *testscript.Env) error {
	data, err := os.ReadFile(filepath.Join("testdata", "wide.yaml"))
	if err != nil {
		return err
	}
	const cable, balance = "cable:\n  length: 240 mm\n", "balance: {pass: 1, marginal: 1}"
	const accepted = "accepted:\n  - check: balance\n    reason: it is light enough\n"
	wide := string(data)
	if !strings.Contains(wide, cable) || !strings.Contains(wide, balance) {
		return errors.New("wide.yaml has lost a line that is edited here")
	}
	fails := strings.Replace(wide, balance, "balance: {pass: 0.001, marginal: 0.001}", 1)
	for name, text := range map[string]string{
		"wide.yaml":          wide,
		"fails.yaml":         fails,
		"accepted.yaml":      fails + accepted,
		"stale.yaml":         wide + accepted,
		"missing.yaml":       strings.Replace(wide, cable, "", 1),
		"fails-missing.yaml": strings.Replace(fails, cable, "", 1),
	} {
		if err := os.WriteFile(filepath.Join(env.WorkDir, name), []byte(text), 0o666); err != nil {
			return err
		}
	}
	return nil
}

// TestScripts runs the scripts under testdata/script. "code N mastwright ..." runs the command and wants that exit code.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           "testdata/script",
		Setup:         designs,
		UpdateScripts: flag.Lookup("update").Value.String() == "true",
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"code": func(ts *testscript.TestScript, neg bool, args []string) {
				want, err := strconv.Atoi(args[0])
				ts.Check(err)
				got := 0
				err = ts.Exec(args[1], args[2:]...)
				var exit *exec.ExitError
				if errors.As(err, &exit) {
					got = exit.ExitCode()
				} else {
					ts.Check(err)
				}
				if got != want {
					ts.Fatalf("exit code %d, want %d", got, want)
				}
			},
		},
	})
}

func ExampleRun() {
	code := cli.Run(context.Background(), []string{"check", "none.yaml"}, cli.Streams{Out: os.Stdout, Err: os.Stdout})
	fmt.Println("exit code", code)
	// Output:
	// none.yaml: no such file or directory; give the name of a design file, or write one with mastwright new
	// exit code 2
}
