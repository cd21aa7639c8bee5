package cli

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"mastwright/app/build"
	"mastwright/design/review"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares text with a file under testdata/golden, or writes the file with -update.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", "golden", name)
	if *update {
		if err := os.WriteFile(path, got, 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s: got\n%s\nwant\n%s", name, got, want)
	}
}

func TestCompareGolden(t *testing.T) {
	var b bytes.Buffer
	printCandidates(&b, "material", []review.Candidate{
		{Name: "copolyester", Mass: 31.2, First: 102, Band: "below once-per-rev (120 to 160 Hz)", Tilt: 0.33, Break: 4.1, Room: 16, Softens: true, Because: "Nothing fails and nothing is marginal"},
		{Name: "pla", Mass: 31.5, First: 121, Tilt: 0.25, Room: -5.5, Softens: true, Fails: 2, Marginals: 1, Because: "Tip-over, Heat fail"},
		{Name: "unknown", Because: "cannot be built here"},
	})
	fits(t, b.String())
	golden(t, "compare.txt", b.Bytes())
}

// fits fails for a line that is wider than the columns or ends in a space.
func fits(t *testing.T, text string) {
	t.Helper()
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		if utf8.RuneCountInString(line) > build.Columns || strings.HasSuffix(line, " ") {
			t.Errorf("%d build.Columns: %q", utf8.RuneCountInString(line), line)
		}
	}
}

func TestVerdictExit(t *testing.T) {
	pass, marginal, fail := review.Verdict{State: review.Pass}, review.Verdict{State: review.Marginal}, review.Verdict{State: review.Fail}
	accepted, noData := review.Verdict{State: review.Fail, Accepted: "known"}, review.Verdict{State: review.NoData}
	for _, c := range []struct {
		name         string
		verdicts     []review.Verdict
		allowMissing bool
		want         error
	}{
		{"all pass", []review.Verdict{pass, pass}, false, nil},
		{"marginal", []review.Verdict{pass, marginal}, false, nil},
		{"one fails", []review.Verdict{pass, fail}, false, exit(Failing)},
		{"a fail is accepted", []review.Verdict{pass, accepted}, false, nil},
		{"one fail is accepted, another not", []review.Verdict{accepted, fail}, false, exit(Failing)},
		{"no data", []review.Verdict{pass, noData}, false, exit(Incomplete)},
		{"no data allowed", []review.Verdict{pass, noData}, true, nil},
		{"a fail outweighs no data", []review.Verdict{noData, fail}, false, exit(Failing)},
		{"a fail is not allowed with the missing", []review.Verdict{noData, fail}, true, exit(Failing)},
		{"accepted fail and no data", []review.Verdict{accepted, noData}, false, exit(Incomplete)},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := verdictExit(review.Result{Verdicts: c.verdicts}, c.allowMissing); got != c.want {
				t.Errorf("got %v, want %v", got, c.want)
			}
		})
	}
}
