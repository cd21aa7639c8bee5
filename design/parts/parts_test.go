package parts_test

import "mastwright/design"

// tester is a test, a benchmark or a property test.
type tester interface {
	Helper()
	Fatal(...any)
	Fatalf(string, ...any)
}

// mount is an invented 7-inch aircraft's mount; answers are pairs of path and text on top of it.
func mount(t tester, answers ...string) *design.Document {
	t.Helper()
	d := design.New()
	if err := d.Insert("airframe.places", 0); err != nil {
		t.Fatal(err)
	}
	base := []string{
		"airframe.places[0].name", "stack",
		"airframe.places[0].holes.along", "30.5 mm", "airframe.places[0].holes.diameter", "3.2 mm", "airframe.places[0].screw", "M3",
		"receiver.size.x", "28 mm", "receiver.size.y", "28 mm", "receiver.size.z", "10 mm", "receiver.mass", "14 g",
		"receiver.connector", "rear",
	}
	base = append(base, answers...)
	for i := 0; i < len(base); i += 2 {
		if err := d.Set(base[i], base[i+1]); err != nil {
			t.Fatalf("%s: %v", base[i], err)
		}
	}
	return d
}

// referenceP is the reference part P, a plain column whose volume and genus are known.
func referenceP(t tester, more ...string) *design.Document {
	return mount(t, append([]string{
		"mast.height", "127 mm", "mast.root.x", "18 mm", "mast.tip.x", "12 mm", "mast.corner", "2 mm", "mast.wall", "2.4 mm",
		"mast.root_fillet", "4 mm", "mast.tip_fillet", "0 mm",
		"mast.cable_way.side", "front", "mast.cable_way.width", "6 mm", "mast.cable_way.length", "14 mm", "mast.cable_way.bottom", "13 mm",
		"foot.size.x", "44 mm", "foot.size.y", "44 mm", "foot.thickness", "4 mm", "foot.corner", "4 mm", "foot.head", "counterbore",
		"foot.fit", "fine", "foot.relief", "0 mm", "print.hole_add", "0 mm",
		"receiver.size.x", "28.3 mm", "receiver.size.y", "28.3 mm", "receiver.fixing", "screws", "receiver.screw", "M2",
		"receiver.holes.x", "24 mm", "receiver.holes.y", "24 mm",
		"tray.size.x", "32 mm", "tray.size.y", "32 mm", "tray.thickness", "3 mm", "tray.corner", "3 mm",
		"tray.rim_height", "4 mm", "tray.rim_wall", "1.6 mm", "tray.clearance", "0.25 mm", "tray.opening.x", "8 mm", "tray.opening.y", "8 mm",
	}, more...)...)
}
