package record

import (
	"slices"
	"strings"
	"unicode"
)

// Role is what a column means.
type Role string

// The roles that are known by name. The reader takes any other role too; its column is then found by the role's own word.
const (
	Time       Role = "time"
	AccX       Role = "acc x"
	AccY       Role = "acc y"
	AccZ       Role = "acc z"
	GyroX      Role = "gyro x"
	GyroY      Role = "gyro y"
	GyroZ      Role = "gyro z"
	MagX       Role = "mag x"
	MagY       Role = "mag y"
	MagZ       Role = "mag z"
	Sound      Role = "sound"
	Current    Role = "current"
	Throttle   Role = "throttle"
	Satellites Role = "satellites"
	Signal     Role = "signal"
	Heading    Role = "heading"
	Force      Role = "force"
	Mass       Role = "mass"
	Deflection Role = "deflection"
	State      Role = "state" // words: what was switched on
)

// Roles lists the known roles.
func Roles() []Role {
	return []Role{Time, AccX, AccY, AccZ, GyroX, GyroY, GyroZ, MagX, MagY, MagZ, Sound, Current, Throttle, Satellites, Signal,
		Heading, Force, Mass, Deflection, State}
}

// words are the names a plain role goes by: a header matches when it is one of exact or holds one of parts.
var words = map[Role]struct{ exact, parts []string }{
	Time:       {[]string{"t", "s", "ms", "us", "seconds", "elapsed", "clock", "sec"}, []string{"time", "stamp"}},
	Sound:      {[]string{"mic"}, []string{"sound", "audio", "microphone"}},
	Current:    {[]string{"i", "a", "curr", "amp", "amps", "ampere", "amperes"}, []string{"current", "amperage"}},
	Throttle:   {[]string{"thr", "thrust"}, []string{"throttle"}},
	Satellites: {[]string{"sv", "svs"}, []string{"sat"}},
	Signal:     {[]string{"snr", "cn0", "cno"}, []string{"signal", "strength", "snr", "cn0"}},
	Heading:    {[]string{"hdg", "yaw", "course"}, []string{"heading", "bearing"}},
	Force:      {[]string{"f", "n", "load"}, []string{"force"}},
	Mass:       {[]string{"m", "kg", "g", "hung"}, []string{"mass", "weight"}},
	Deflection: {[]string{"d", "w", "dial", "spot", "mm"}, []string{"deflection", "reading", "movement", "displacement", "travel"}},
	State:      {[]string{"on", "what", "device", "source", "case"}, []string{"state", "switched", "setup"}},
}

// sensors are the three-axis kinds: the prefix of their role, the one-letter and part-of-word names.
var sensors = []struct {
	kind    string
	letters []string // joined with the axis: "ax"
	parts   []string // with the axis at either end
}{
	{"acc", []string{"a"}, []string{"acc"}},
	{"gyro", []string{"g", "w", "omega"}, []string{"gyr", "rotationrate", "angularrate", "angularvelocity"}},
	{"mag", []string{"m", "b", "h"}, []string{"mag", "compass", "field"}},
}

// roleOf returns the role that a header name reads as and how surely: 2 when the whole name says it, 1 when a part does, 0
// for no role.
func roleOf(header string) (Role, int) {
	name := plain(header)
	if name == "" {
		return "", 0
	}
	if role, sure := sensorOf(name); sure > 0 {
		return role, sure
	}
	best, sure := Role(""), 0
	for _, role := range Roles() {
		w := words[role]
		if slices.Contains(w.exact, name) || slices.Contains(w.parts, name) {
			return role, 2
		}
		if sure == 0 && slices.ContainsFunc(w.parts, func(p string) bool { return strings.Contains(name, p) }) {
			best, sure = role, 1
		}
	}
	return best, sure
}

func sensorOf(name string) (Role, int) {
	const axes = "xyz"
	axis, rest := -1, ""
	for i := range axes {
		x, digit := axes[i:i+1], string(rune('0'+i))
		switch {
		case strings.HasSuffix(name, x):
			axis, rest = i, strings.TrimSuffix(name, x)
		case strings.HasSuffix(name, digit):
			axis, rest = i, strings.TrimSuffix(name, digit)
		case strings.HasPrefix(name, x):
			axis, rest = i, strings.TrimPrefix(name, x)
		default:
			continue
		}
		break
	}
	if axis < 0 {
		return "", 0
	}
	for _, s := range sensors {
		role := Role(s.kind + " " + axes[axis:axis+1])
		if rest == s.kind || slices.Contains(s.letters, rest) && strings.HasSuffix(name, axes[axis:axis+1]) {
			return role, 2
		}
		if !strings.Contains(name, "accura") && slices.ContainsFunc(s.parts, func(p string) bool { return strings.Contains(rest, p) }) {
			return role, 1
		}
	}
	return "", 0
}

// plain is a header name in small letters without its unit and without anything but letters and digits.
func plain(header string) string {
	name, _ := splitUnit(header)
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, name)
}

// splitUnit parts "Acceleration x (m/s^2)" or "time [us]" into name and unit; an index as in "acc[0]" stays with the name.
// A unit of time after an underscore, "time_us", is found too.
func splitUnit(header string) (name, unit string) {
	header = strings.TrimSpace(header)
	for _, pair := range []string{"()", "[]"} {
		open := strings.LastIndexByte(header, pair[0])
		if open > 0 && strings.HasSuffix(header, pair[1:]) {
			inner := strings.TrimSpace(header[open+1 : len(header)-1])
			if inner != "" && !strings.ContainsAny(inner[:1], "0123456789") {
				return strings.TrimSpace(header[:open]), inner
			}
		}
	}
	for _, end := range []string{"s", "ms", "us", "µs", "ns"} {
		for _, gap := range []string{"_", " ", "-"} {
			if strings.HasSuffix(strings.ToLower(header), gap+end) {
				return header[:len(header)-len(gap+end)], end
			}
		}
	}
	for _, end := range []string{"US", "Us"} { // "timeUS": a capital after a small letter
		if n := len(header) - len(end); n > 0 && strings.HasSuffix(header, end) && unicode.IsLower(rune(header[n-1])) {
			return header[:n], "us"
		}
	}
	return header, ""
}
