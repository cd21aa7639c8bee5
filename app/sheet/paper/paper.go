// Package paper holds a sheet as data: sections of words, tables, drawings and check lists. It knows no page; what renders it
// decides where a page ends.
//
// Drawings are in millimetres of paper, x to the right and y down from the top left corner.
package paper

// Room is the largest drawing in mm that fits on a page of A4 and of Letter alike, below its title and above its caption.
const (
	RoomWidth  = 178.0
	RoomHeight = 212.0
)

// Sheet is a document.
type Sheet struct {
	Kind     string // "Build sheet"
	Title    string
	Revision string // "" for none
	Date     string // as it is printed; "" for none
	Version  string // of the program; "" for none
	Alarm    string // said at the head of every page; "" for none
	Foot     string // said at the foot of every page
	Sections []Section
}

// Section is a chapter of a sheet.
type Section struct {
	Title  string
	Fresh  bool // begins on a new page
	Blocks []Block
}

// Block is a piece of a section: Heading, Prose, List, Table, Figure, Beside, Notice or Checks.
type Block interface{ block() }

// Heading is a title within a section, with the mark of its tone before it.
type Heading struct {
	Text string
	Tone Tone
}

// Prose is a paragraph.
type Prose struct {
	Text  string
	Quiet bool // smaller and greyer
	Mono  bool // a formula
}

// List is a list of paragraphs.
type List struct {
	Items    []string
	Numbered bool
}

// Table is a table with a row of titles.
type Table struct {
	Columns []Column
	Rows    []Row
}

// Column is a column of a table.
type Column struct {
	Title string
	Share float64 // of the table's width, against the other columns' shares
	Right bool    // its cells end at its right edge
}

// Row is a row of a table.
type Row struct {
	Cells []Cell
	Tone  Tone
}

// Cell is a cell of a table.
type Cell struct {
	Text   string
	Strong bool
}

// Words are cells of words.
func Words(texts ...string) []Cell {
	cells := make([]Cell, len(texts))
	for i, t := range texts {
		cells[i].Text = t
	}
	return cells
}

// Figure is a drawing with its caption. Words say what it shows to those who cannot see it.
type Figure struct {
	Drawing Drawing
	Caption string
	Words   string
}

// Beside is figures in one line.
type Beside []Figure

// Notice is what must not be missed.
type Notice struct {
	Tone  Tone
	Title string
	Lines []string
}

// Checks is a list to be ticked off.
type Checks []Check

// Check is one thing to be done and seen.
type Check struct {
	Do     string
	Expect string // what should be seen; "" for nothing in particular
	Blanks []Blank
	Enter  string // the command that reads what was written down or recorded; "" for none
	IfNot  string // what to do when it is not seen; "" where nothing can go wrong
}

// Blank is a place to write a reading.
type Blank struct{ Name, Unit string }

func (Heading) block() {}
func (Prose) block()   {}
func (List) block()    {}
func (Table) block()   {}
func (Figure) block()  {}
func (Beside) block()  {}
func (Notice) block()  {}
func (Checks) block()  {}
