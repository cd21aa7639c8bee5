package build_test

import (
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"mastwright/app/build"
	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/review"
)

func example(t *testing.T) (*design.Document, review.Result) {
	t.Helper()
	for _, e := range assets.Examples() {
		if e.Name == assets.FirstStart {
			doc, _ := design.Decode(e.Data, design.Options{})
			r, problems := review.Run(doc)
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			return doc, r
		}
	}
	t.Fatal("there is no first example")
	return nil, review.Result{}
}

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, e := range entries {
		list = append(list, e.Name())
	}
	return list
}

// The files that are listed are the files that are there, and a part that is of another design does not stay beside a new one.
func TestOnlySomeParts(t *testing.T) {
	doc, r := example(t)
	dir := filepath.Join(t.TempDir(), "out")
	into := build.Folder{Path: dir}
	for _, c := range []struct {
		name   string
		corner string // of the tray
		o      build.Options
		want   []string
	}{
		{"one", "3 mm", build.Options{Only: []string{"tray"}}, []string{"results.json", "summary.txt", "tray_mm.stl"}},
		{"another of the same design", "3 mm", build.Options{Only: []string{"mast"}}, []string{"mast_mm.stl", "results.json", "summary.txt", "tray_mm.stl"}},
		{"one of another design: its tray differs, its mast does not", "2 mm", build.Options{Only: []string{"foot"}},
			[]string{"foot_mm.stl", "mast_mm.stl", "results.json", "summary.txt"}},
		{"all", "2 mm", build.Options{}, []string{"foot_mm.stl", "mast_mm.stl", "results.json", "summary.txt", "tray_mm.stl"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if err := doc.Set("tray.corner", c.corner); err != nil {
				t.Fatal(err)
			}
			made, err := build.Make(context.Background(), into, doc, r, c.o)
			if err != nil {
				t.Fatal(err)
			}
			if got := names(t, dir); !slices.Equal(got, c.want) {
				t.Errorf("folder holds %q, want %q", got, c.want)
			}
			if slices.Sort(made.Files); !slices.Equal(made.Files, c.want) {
				t.Errorf("said %q, want %q", made.Files, c.want)
			}
			data, err := os.ReadFile(filepath.Join(dir, "results.json"))
			if err != nil {
				t.Fatal(err)
			}
			var ledger struct{ Files []struct{ File string } }
			if err := json.Unmarshal(data, &ledger); err != nil || len(ledger.Files) != len(c.want)-1 {
				t.Errorf("results.json lists %v (%v), want all files but itself", ledger.Files, err)
			}
		})
	}
}

func TestMakeRefuses(t *testing.T) {
	doc, r := example(t)
	dir := t.TempDir()
	into := build.Folder{Path: dir}
	if _, err := build.Make(context.Background(), into, doc, r, build.Options{Only: []string{"flag"}}); err == nil {
		t.Error("a part that is not there was made")
	}
	if err := os.WriteFile(filepath.Join(dir, "tray_mm.stl"), []byte("mine"), 0o666); err != nil {
		t.Fatal(err)
	}
	_, err := build.Make(context.Background(), into, doc, r, build.Options{})
	var w build.InTheWay
	if !errors.As(err, &w) || !w.Force || len(w.Files) != 1 {
		t.Errorf("said %v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	into.Force = true
	_, err = build.Make(ctx, into, doc, r, build.Options{Progress: func(string, int, int) { cancel() }})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: said %v", err)
	}
	if got := names(t, dir); !slices.Equal(got, []string{"tray_mm.stl"}) {
		t.Errorf("folder holds %q after a refusal and a cancel", got)
	}
	if err := doc.Set("mast.wall", "12 mm"); err != nil {
		t.Fatal(err)
	}
	var problems build.Problems
	if _, err := build.Make(context.Background(), into, doc, r, build.Options{}); !errors.As(err, &problems) {
		t.Errorf("a mast without a bore: said %v", err)
	}
}
