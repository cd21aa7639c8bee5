package vibration

// Support is what the mount stood on while it was tapped. It decides which prediction the record is held against and what
// the result may correct.
type Support int

// The supports.
const (
	OnBlock  Support = iota // the mount alone, screwed to a heavy block
	OnFoam                  // the aircraft on soft foam: nearly free, as in flight
	HeldDown                // the aircraft held or strapped down
)

// Supports lists the supports.
func Supports() []Support { return []Support{OnBlock, OnFoam, HeldDown} }

// String is the support in the words that documents and forms use.
func (s Support) String() string {
	return [...]string{"on a block", "aircraft on foam", "aircraft held down"}[s]
}

// ParseSupport reads the words of String.
func ParseSupport(words string) (Support, bool) {
	for _, s := range Supports() {
		if s.String() == words {
			return s, true
		}
	}
	return 0, false
}

// Flying says whether the prediction with a free aircraft is the one to compare with; else the one with a held base.
func (s Support) Flying() bool { return s == OnFoam }

// Modulus says whether the result may correct the plastic's modulus. On the aircraft the foot and the frame give way too: the
// result then scales the stiffness of the whole mount and is stored as that.
func (s Support) Modulus() bool { return s == OnBlock }
