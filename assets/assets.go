// Package assets holds the starter lists as they are embedded: raw bytes, read
// by whoever uses them. All are RFC 4180 tables with a heading; every line
// names its source in its last column, and a unit edits every one of them.
//
//	catalogue.csv   what can be asked for: spoken number (its last digit is a Damm check
//	                digit), name, group, size or strength, content, flags, waste, where kept
//	bundles.csv     several items asked for with one tap, one row for each line; where the set lies
//	templates.csv   what a prepared kit should hold, and on which side of the door
//	places.csv      what places are called
//	roles.csv       the roles, their side of the door and what they can do, by word
//	layout.csv      the numbered places of the board inside, as on its printed card
//	waste.csv       classes of waste in the codes of the European List of Waste
//	lists.csv       lines that are read, ticked, noted or said: kinds of case, plans,
//	                brief, donning, doffing, leaving, times, phrases, breaches, questions
//	settings.csv    what a unit decides for itself, with the value until it does
//	labels.csv      classes of drugs, the colour of their labels and whether it is striped
//	tallman.csv     names of drugs in tall-man letters, by spelling table
//	rooms.csv       the rooms of an invented unit, for the demonstration
//	demo_stock.csv  its par levels and opening stock, invented too
//	pictures.csv    which item has which outline, which place has which map
//
// A line of lists.csv carries marks, a sum of bits. In the list "time" 1 is an
// aerosol event, 2 has a number of the attempt, 4 starts a clock and 8 stands
// on the front page; in the lists that are ticked or read aloud 1 is a line
// that is done singly. An id of "time-after" is two ids of "time" with a dot
// between: the second must have come before the first. Starter texts name
// plans and steps; local policy and the people in the room decide.
//
// Drugs have generic names in sentence case. No line holds a dose or a brand.
package assets

import _ "embed" // for the files below

// The files as text, which nobody can change.
var (
	//go:embed catalogue.csv
	catalogue string
	//go:embed bundles.csv
	bundles string
	//go:embed templates.csv
	templates string
	//go:embed places.csv
	places string
	//go:embed roles.csv
	roles string
	//go:embed rooms.csv
	rooms string
	//go:embed layout.csv
	layout string
	//go:embed waste.csv
	waste string
	//go:embed demo_stock.csv
	demoStock string
	//go:embed lists.csv
	lists string
	//go:embed settings.csv
	settings string
	//go:embed labels.csv
	labels string
	//go:embed tallman.csv
	tallMan string
)

// Catalogue returns a copy of catalogue.csv.
func Catalogue() []byte { return []byte(catalogue) }

// Bundles returns a copy of bundles.csv.
func Bundles() []byte { return []byte(bundles) }

// Templates returns a copy of templates.csv.
func Templates() []byte { return []byte(templates) }

// Places returns a copy of places.csv.
func Places() []byte { return []byte(places) }

// Roles returns a copy of roles.csv.
func Roles() []byte { return []byte(roles) }

// Rooms returns a copy of rooms.csv.
func Rooms() []byte { return []byte(rooms) }

// Layout returns a copy of layout.csv.
func Layout() []byte { return []byte(layout) }

// Waste returns a copy of waste.csv.
func Waste() []byte { return []byte(waste) }

// DemoStock returns a copy of demo_stock.csv.
func DemoStock() []byte { return []byte(demoStock) }

// Lists returns a copy of lists.csv.
func Lists() []byte { return []byte(lists) }

// Settings returns a copy of settings.csv.
func Settings() []byte { return []byte(settings) }

// Labels returns a copy of labels.csv.
func Labels() []byte { return []byte(labels) }

// TallMan returns a copy of tallman.csv.
func TallMan() []byte { return []byte(tallMan) }
