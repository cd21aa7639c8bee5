package sheet_test

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"strings"
	"testing"

	"mastwright/app/sheet"
	"mastwright/app/sheet/html"
	"mastwright/app/sheet/paper"
)

// The HTML is well-formed, as a strict reader of XML finds it, and needs no other file: every picture is data and opens.
func TestHTMLIsWholeAndSelfContained(t *testing.T) {
	well, _ := passing(t)
	long, _ := overlong(t)
	hostile := sheet.Card(sheet.CardOptions{})
	hostile.Title = `<script>alert("1")</script> & 'a' ` + "\x00\x1b]]>\xff"
	for name, s := range map[string]paper.Sheet{"passing": well, "plates": styleOf(t, "twin-plate"), "long names": long, "markup in a name": hostile} {
		t.Run(name, func(t *testing.T) {
			var b bytes.Buffer
			if err := html.Encode(&b, s); err != nil {
				t.Fatal(err)
			}
			d := xml.NewDecoder(&b)
			pictures, titles, last := 0, 0, 0
			for {
				token, err := d.Token()
				if errors.Is(err, io.EOF) {
					break
				}
				if err != nil {
					t.Fatal(err)
				}
				e, ok := token.(xml.StartElement)
				if !ok {
					continue
				}
				switch e.Name.Local {
				case "script", "link", "iframe", "object", "img":
					t.Errorf("there is an element %s", e.Name.Local)
				case "h1", "h2", "h3":
					titles++
					level := int(e.Name.Local[1] - '0')
					if level > last+1 {
						t.Errorf("a title of level %d follows one of %d", level, last)
					}
					last = level
				}
				for _, a := range e.Attr {
					if strings.HasPrefix(a.Name.Local, "on") {
						t.Errorf("%s has %s", e.Name.Local, a.Name.Local)
					}
					if a.Name.Local != "href" && a.Name.Local != "src" {
						continue
					}
					data, ok := strings.CutPrefix(a.Value, "data:image/png;base64,")
					if !ok {
						t.Errorf("%s leads out of the file: %.60s", a.Name.Local, a.Value)
						continue
					}
					picture, err := base64.StdEncoding.DecodeString(data)
					if err != nil {
						t.Fatal(err)
					}
					if _, err := png.Decode(bytes.NewReader(picture)); err != nil {
						t.Error(err)
					}
					pictures++
				}
			}
			if s.Kind == "Build sheet" && (pictures < 8 || titles < 30) {
				t.Errorf("%d pictures and %d titles", pictures, titles)
			}
		})
	}
}
