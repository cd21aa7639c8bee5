// Package markdown renders the words and tables of a sheet as Markdown. Drawings are described; they are in the PDF and the HTML.
package markdown

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"mastwright/app/sheet/paper"
)

// Encode writes a sheet as Markdown, with tables and task lists as GitHub Flavored Markdown 0.29 has them.
func Encode(w io.Writer, s paper.Sheet) error {
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, "# %s: %s\n\n", plain(s.Kind), plain(s.Title))
	var issue []string
	for _, part := range [][2]string{{"Revision ", s.Revision}, {"", s.Date}, {"Mastwright ", s.Version}} {
		if part[1] != "" {
			issue = append(issue, plain(part[0]+part[1]))
		}
	}
	if len(issue) > 0 {
		fmt.Fprintf(out, "%s\n\n", strings.Join(issue, " · "))
	}
	if s.Alarm != "" {
		fmt.Fprintf(out, "**%s**\n\n", plain(s.Alarm))
	}
	for _, section := range s.Sections {
		if section.Title != "" {
			fmt.Fprintf(out, "## %s\n\n", plain(section.Title))
		}
		for _, b := range section.Blocks {
			block(out, b)
		}
	}
	fmt.Fprintf(out, "---\n\n%s\n", plain(s.Foot))
	if err := out.Flush(); err != nil {
		return fmt.Errorf("write the sheet: %w", err)
	}
	return nil
}

// plain is words in which nothing is markup.
func plain(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	return strings.NewReplacer(`\`, `\\`, "*", `\*`, "_", `\_`, "`", "\\`", "[", `\[`, "]", `\]`, "<", "&lt;", ">", "&gt;", "|", `\|`, "#", `\#`).Replace(s)
}

func block(w io.Writer, b paper.Block) {
	switch b := b.(type) {
	case paper.Heading:
		fmt.Fprintf(w, "### %s\n\n", plain(b.Text))
	case paper.Prose:
		if b.Mono {
			fmt.Fprintf(w, "    %s\n\n", strings.Join(strings.Fields(b.Text), " "))
			return
		}
		fmt.Fprintf(w, "%s\n\n", plain(b.Text))
	case paper.List:
		for i, item := range b.Items {
			mark := "-"
			if b.Numbered {
				mark = fmt.Sprintf("%d.", i+1)
			}
			fmt.Fprintf(w, "%s %s\n", mark, plain(item))
		}
		fmt.Fprintln(w)
	case paper.Table:
		table(w, b)
	case paper.Figure:
		figure(w, b)
	case paper.Beside:
		for _, f := range b {
			figure(w, f)
		}
	case paper.Notice:
		fmt.Fprintf(w, "> **%s**\n", plain(b.Title))
		for _, line := range b.Lines {
			fmt.Fprintf(w, ">\n> %s\n", plain(line))
		}
		fmt.Fprintln(w)
	case paper.Checks:
		for _, c := range b {
			fmt.Fprintf(w, "- [ ] **%s**\n", plain(c.Do))
			if c.Expect != "" {
				fmt.Fprintf(w, "  %s\n", plain(c.Expect))
			}
			for _, blank := range c.Blanks {
				fmt.Fprintf(w, "  %s ........ %s\n", plain(blank.Name), plain(blank.Unit))
			}
			if c.Enter != "" {
				fmt.Fprintf(w, "  %s\n", plain(c.Enter))
			}
			if c.IfNot != "" {
				fmt.Fprintf(w, "  If not: %s\n", plain(c.IfNot))
			}
		}
		fmt.Fprintln(w)
	}
}

func figure(w io.Writer, f paper.Figure) {
	said := f.Caption
	if f.Words != "" {
		said = strings.TrimSpace(said + " " + f.Words)
	}
	fmt.Fprintf(w, "*Drawing: %s*\n\n", plain(said))
}

func table(w io.Writer, t paper.Table) {
	row := func(cells []string) { fmt.Fprintf(w, "| %s |\n", strings.Join(cells, " | ")) }
	var titles, rules []string
	for _, c := range t.Columns {
		titles = append(titles, plain(c.Title))
		rule := "---"
		if c.Right {
			rule = "--:"
		}
		rules = append(rules, rule)
	}
	row(titles)
	row(rules)
	for _, r := range t.Rows {
		cells := make([]string, len(t.Columns))
		for i, c := range r.Cells {
			if i < len(cells) {
				cells[i] = plain(c.Text)
			}
		}
		row(cells)
	}
	fmt.Fprintln(w)
}
