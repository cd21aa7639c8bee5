package build_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"mastwright/app/build"
	"mastwright/design/sizing"
)

// The build sheet is written in the forms that are asked for, is listed like every other file, goes away with the next Make that does
// not ask for it, and carries the day and the wiring table.
func TestSheet(t *testing.T) {
	doc, r := example(t)
	dir := filepath.Join(t.TempDir(), "out")
	into := build.Folder{Path: dir}
	o := build.Options{Only: []string{"tray"}, Sheet: build.Sheet{PDF: true, HTML: true, Markdown: true, Date: "2026-07-14"}}
	if _, err := build.Make(context.Background(), into, doc, r, o); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(filepath.Join(dir, build.LedgerName))
	if err != nil {
		t.Fatal(err)
	}
	var ledger struct {
		Files []struct{ File string }
	}
	if err := json.Unmarshal(data, &ledger); err != nil {
		t.Fatal(err)
	}
	for name, begins := range map[string]string{build.SheetPDF: "%PDF-", build.SheetHTML: "<!DOCTYPE html>", build.SheetMarkdown: "# Build sheet: "} {
		if !slices.Contains(ledger.Files, struct{ File string }{name}) {
			t.Errorf("%s is not listed", name)
		}
		made, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.HasPrefix(made, []byte(begins)) {
			t.Errorf("%s begins with %.20q", name, made)
		}
		if name == build.SheetMarkdown && !(strings.Contains(string(made), "2026-07-14") && strings.Contains(string(made), "CROSSES")) {
			t.Errorf("%s lacks the day or the crossing wires", name)
		}
	}
	o.Sheet = build.Sheet{PDF: true}
	made, err := build.Make(context.Background(), into, doc, r, o)
	if err != nil {
		t.Fatal(err)
	}
	if want := []string{build.SheetHTML, build.SheetMarkdown}; !slices.Equal(made.Removed, want) {
		t.Errorf("taken away: %v, want %v", made.Removed, want)
	}
}

// What sizing found goes on the sheet: the window's line stands in it as the window itself words it.
func TestSheetWithSizing(t *testing.T) {
	doc, r := example(t)
	found, err := build.Size(context.Background(), doc, sizing.Options{})
	if err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(t.TempDir(), "out")
	o := build.Options{Only: []string{"tray"}, Sheet: build.Sheet{Markdown: true, Sizing: &found}}
	if _, err := build.Make(context.Background(), build.Folder{Path: dir}, doc, r, o); err != nil {
		t.Fatal(err)
	}
	made, err := os.ReadFile(filepath.Join(dir, build.SheetMarkdown))
	if err != nil {
		t.Fatal(err)
	}
	if want := found.Window.Words()[0]; !strings.Contains(string(made), want) {
		t.Errorf("the sheet does not say %q", want)
	}
}

// A search that is called off says so.
func TestSizeIsCalledOff(t *testing.T) {
	doc, _ := example(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := build.Size(ctx, doc, sizing.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v, want %v", err, context.Canceled)
	}
}
