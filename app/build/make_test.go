package build_test

import (
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
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
		{"one", "3 mm", build.Options{Only: []string{"tray"}}, []string{"parts.3mf", "results.json", "summary.txt", "tray_mm.stl"}},
		{"another of the same design", "3 mm", build.Options{Only: []string{"mast"}}, []string{"mast_mm.stl", "parts.3mf", "results.json", "summary.txt", "tray_mm.stl"}},
		{"one of another design: its tray differs, its mast does not", "2 mm", build.Options{Only: []string{"foot"}},
			[]string{"foot_mm.stl", "mast_mm.stl", "parts.3mf", "results.json", "summary.txt"}},
		{"all", "2 mm", build.Options{}, []string{"foot_mm.stl", "mast_mm.stl", "parts.3mf", "results.json", "summary.txt", "tray_mm.stl"}},
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

// What is cut lies in the folder beside what is printed, and goes when the mount is built another way.
func TestStyles(t *testing.T) {
	doc, r := example(t)
	dir := filepath.Join(t.TempDir(), "out")
	doc.Materials.Sheet, doc.Materials.Spacer = "carbon-sheet", doc.Materials.Foot
	for _, c := range []struct {
		style string
		o     build.Options
		want  []string
	}{
		{"twin-plate", build.Options{Flatten: true}, []string{"cut_list.csv", "foot_mm.stl", "parts.3mf", "results.json", "sheet_carbon-sheet_3mm.dxf", "sheet_carbon-sheet_3mm.svg", "spacer_mm.stl", "summary.txt", "tray_mm.stl"}},
		{"twin-plate", build.Options{Only: []string{"plate"}, Flatten: true}, []string{"cut_list.csv", "foot_mm.stl", "parts.3mf", "results.json", "sheet_carbon-sheet_3mm.dxf", "sheet_carbon-sheet_3mm.svg", "spacer_mm.stl", "summary.txt", "tray_mm.stl"}},
		{"tube", build.Options{}, []string{"cut_list.csv", "foot_mm.stl", "parts.3mf", "results.json", "summary.txt", "tray_mm.stl"}},
		{"column", build.Options{Only: []string{"tray"}}, []string{"parts.3mf", "results.json", "summary.txt", "tray_mm.stl"}},
	} {
		t.Run(c.style, func(t *testing.T) {
			doc.Mast.Build = c.style
			made, err := build.Make(context.Background(), build.Folder{Path: dir}, doc, r, c.o)
			if err != nil {
				t.Fatal(err)
			}
			if got := names(t, dir); !slices.Equal(got, c.want) {
				t.Errorf("folder holds %q, want %q", got, c.want)
			}
			var said strings.Builder
			made.Print(&said, "Made")
			if cut := c.style != "column"; cut != strings.Contains(said.String(), "\nTo cut, also in cut_list.csv\n") {
				t.Errorf("said\n%s", &said)
			}
			data, err := os.ReadFile(filepath.Join(dir, "results.json"))
			if err != nil {
				t.Fatal(err)
			}
			var results struct {
				Cut []struct {
					Name, Making string
					Length       float64 `json:"length_mm"`
					Copies       int
				}
				Hardware []struct{ Count int }
			}
			if err := json.Unmarshal(data, &results); err != nil || len(results.Hardware) == 0 {
				t.Errorf("%v, hardware %v", err, results.Hardware)
			}
			switch cut := results.Cut; {
			case c.style == "twin-plate" && (len(cut) != 1 || cut[0].Name != "plate" || cut[0].Making != "cut" || cut[0].Copies != 2),
				c.style == "tube" && (len(cut) != 1 || cut[0].Making != "stock" || cut[0].Length < 20),
				c.style == "column" && len(cut) != 0:
				t.Errorf("cut %+v", cut)
			}
		})
	}
}
