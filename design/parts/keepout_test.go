package parts_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/mesh/solid"
)

// keeping is a mount whose place keeps room for others: each of name, shape, x, y, size x, size y, height, "" left out.
func keeping(t tester, keeps [][7]string, answers ...string) *design.Document {
	t.Helper()
	d := mount(t, append([]string{"foot.size.x", "60 mm", "foot.size.y", "52 mm"}, answers...)...)
	const list = "airframe.places[0].keep_outs"
	for i, k := range keeps {
		if err := d.Insert(list, i); err != nil {
			t.Fatal(err)
		}
		for n, leaf := range []string{"name", "shape", "at.x", "at.y", "size.x", "size.y", "height"} {
			if k[n] == "" {
				continue
			}
			if err := d.Set(list+"["+string(rune('0'+i))+"]."+leaf, k[n]); err != nil {
				t.Fatal(err)
			}
		}
	}
	return d
}

var (
	slot    = [7]string{"strap slot", "rectangular", "0 mm", "20 mm", "20 mm", "4 mm", ""}
	notched = [7]string{"antenna", "rectangular", "25 mm", "0 mm", "9 mm", "16 mm", ""}
	heads   = [7]string{"stack screw", "round", "-22 mm", "0 mm", "6 mm", "", "2 mm"}
	tall    = [7]string{"stack screw", "round", "-24 mm", "4 mm", "7 mm", "", "9 mm"}
	cut     = [7]string{"wire", "rectangular", "26 mm", "22 mm", "12 mm", "9 mm", ""}
)

// With everything a place may keep, foot and mast stay one closed solid that weighs what the outlines say.
func TestKeepOutMeshes(t *testing.T) {
	for _, v := range []struct {
		name    string
		keeps   [][7]string
		answers []string
	}{
		{"slot inside", [][7]string{slot}, nil},
		{"notch in the edge", [][7]string{notched}, nil},
		{"pocket", [][7]string{heads}, nil},
		{"round notch", [][7]string{tall}, nil},
		{"beyond the foot", [][7]string{{"strap", "rectangular", "0 mm", "40 mm", "20 mm", "4 mm", ""}}, nil},
		{"corner", [][7]string{cut}, []string{"airframe.places[0].holes.along", "25.5 mm"}},
		{"all of them, turned", [][7]string{slot, notched, heads}, []string{"airframe.places[0].turn", "30 deg", "foot.head", "nut pocket", "foot.mark", "number"}},
		{"on a wedge", [][7]string{notched, heads}, []string{"foot.wedge", "level", "airframe.places[0].slope_forward", "5 deg", "mast.cable_way.bottom", "16 mm", "foot.mark", "number"}},
		{"three pieces", [][7]string{slot, tall}, []string{"mast.split", "three pieces", "mast.cable_way.bottom", "22 mm"}},
	} {
		t.Run(v.name, func(t *testing.T) {
			for _, p := range built(t, keeping(t, v.keeps, v.answers...)).Parts {
				m, r, err := solid.Polygonise(context.Background(), p.Solid(), solid.Options{Tolerance: 0.05})
				if err != nil || r.Pieces != 1 || r.Coarse {
					t.Fatalf("%s: %d pieces, coarse %v, %v", p.Name, r.Pieces, r.Coarse, err)
				}
				b := m.Body()
				if !near(p.Body.Volume, b.Volume, 0.005) { // as for the variations
					t.Errorf("%s: outlines enclose %.1f mm³, the mesh %.1f", p.Name, p.Body.Volume, b.Volume)
				}
				if d := r3.Norm(r3.Sub(p.Body.Centre, b.Centroid)); d > 0.5 {
					t.Errorf("%s: centre of gravity %v by outlines, %v by mesh", p.Name, p.Body.Centre, b.Centroid)
				}
			}
		})
	}
}

// What is kept is free, what is not is plastic. By hand: the foot reaches to x = ±30 and y = ±26 and is 5 mm thick; a pocket for a
// head of 2 mm is 2.3 mm deep.
func TestKeepOutsAreFree(t *testing.T) {
	n := built(t, keeping(t, [][7]string{slot, notched, heads})).Parts[0].Solid()
	for _, c := range []struct {
		name    string
		x, y, z float64
		solid   bool
	}{
		{"in the slot", 9.5, 20, 2, false},
		{"beside the slot", 11, 20, 2, true},
		{"between slot and edge", 0, 23, 2, true},
		{"in the notch", 27, 0, 2, false},
		{"the notch runs out over the strip of 0.5 mm", 29.8, 7, 2, false},
		{"before the notch", 19.5, 0, 2, true},
		{"in the pocket", -22, 0, 2.2, false},
		{"over the pocket", -22, 0, 2.6, true},
		{"beside the pocket", -25.5, 0, 1, true},
	} {
		if got := n.Value(r3.Vec{X: c.x, Y: c.y, Z: c.z}) < 0; got != c.solid {
			t.Errorf("%s: plastic %v; want %v", c.name, got, c.solid)
		}
	}
}

// A notch of 9.5 by 16 mm and a slot of 20 by 4 in a foot 5 mm thick, its pocket of 6 mm and 2.3 mm: by hand.
func TestKeepOutVolumes(t *testing.T) {
	plain, kept := built(t, keeping(t, nil, "foot.relief", "0 mm")), built(t, keeping(t, [][7]string{slot, notched, heads}, "foot.relief", "0 mm"))
	want := 5*(20*4+9.5*16) + 2.3*math.Pi/4*36
	if got := plain.Foot.Body.Volume - kept.Foot.Body.Volume; math.Abs(got-want) > 1e-6 {
		t.Errorf("they take %.6f mm³; want %.6f", got, want)
	}
	// The plate that bends leaves pockets out too.
	want = 20*4 + 9.5*16 + math.Pi/4*36
	if got := plain.Foot.Outline.Area() - kept.Foot.Outline.Area(); math.Abs(got-want) > 1e-6 {
		t.Errorf("the plate is smaller by %.6f mm²; want %.6f", got, want)
	}
}

func TestKeepOutProblems(t *testing.T) {
	with := func(k [7]string, changes ...string) [7]string {
		for i := 0; i < len(changes); i += 2 {
			k[map[string]int{"x": 2, "y": 3, "wide": 4, "deep": 5}[changes[i]]] = changes[i+1]
		}
		return k
	}
	for _, c := range []struct {
		name  string
		keeps [][7]string
		path  string
		says  string
	}{
		{"under the mast", [][7]string{with(slot, "y", "10 mm")}, "airframe.places[0].keep_outs[0].at.x", "lies under the mast's root"},
		{"at a screw", [][7]string{with(slot, "x", "10 mm", "y", "17 mm")}, "airframe.places[0].keep_outs[0].at.x", "reaches the screw at hole 3"},
		{"right across", [][7]string{with(notched, "x", "23 mm", "wide", "3 mm", "deep", "120 mm")}, "airframe.places[0].keep_outs[0].size.x", "would cut the foot in two"},
		{"over each other", [][7]string{with(slot, "wide", "14 mm"), with(slot, "x", "2 mm", "y", "21 mm", "wide", "14 mm")}, "airframe.places[0].keep_outs[1].size.x", `overlaps "strap slot"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, problems := parts.Build(keeping(t, c.keeps))
			for _, p := range problems {
				if p.Path == c.path && strings.Contains(p.Text, c.says) {
					return
				}
			}
			t.Errorf("got %v; want %s: ... %s", problems, c.path, c.says)
		})
	}
}

// The number's strokes are cut 0.4 mm into the underside, and a foot without room for them says so.
func TestNumberIsCut(t *testing.T) {
	volume := func(answers ...string) float64 { return built(t, mount(t, answers...)).Foot.Body.Volume }
	wide := []string{"foot.size.x", "60 mm", "foot.size.y", "52 mm", "revision", "B"}
	// Six letters of 4.2 mm in squares of 0.6 mm: between 10 and 25 of the 35 squares each.
	taken := volume(wide...) - volume(append(wide, "foot.mark", "number")...)
	if least, most := 5*10*0.36*0.4, 5*25*0.36*0.4; taken < least || taken > most {
		t.Errorf("the number takes %.2f mm³; want %.2f to %.2f", taken, least, most)
	}
	tight := built(t, mount(t, "revision", "LETTER", "foot.mark", "number", "mast.root.x", "22 mm", "mast.wall", "1.6 mm"))
	if notes := strings.Join(tight.Parts[0].Notes, " "); !strings.Contains(notes, "number") {
		t.Errorf("notes %q say nothing of the number", notes)
	}
}
