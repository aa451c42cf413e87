package kits

import (
	"strconv"
	"strings"

	"lintel/mesh"
)

// CatalogueColumns is the heading of the catalogue.
func CatalogueColumns() []string {
	return []string{
		"number", "name", "group", "detail", "measure", "content", "volume_ul", "use", "controlled",
		"must_be_seen", "high_alert", "look_alike", "label_class", "waste", "exit", "exit_days",
		"kept_at", "kept_words", "alternatives", "source",
	}
}

// ReadCatalogue reads catalogue lines. Amounts are whole numbers of a base
// measure ("50000 microgram"); volumes are microlitres. Each number may come once.
func ReadCatalogue(b []byte) (out []ItemLine, err error) {
	seen := map[mesh.Number]bool{}
	err = readTable(b, CatalogueColumns(), func(x *row) {
		v := ItemLine{
			Number: x.numbered("number"), Name: x.label("name", true), Group: x.id("group", true),
			Detail: x.label("detail", false), Stocked: x.measure("measure"), Content: x.amount("content"),
			VolumeUL: x.whole("volume_ul", QuantityMax), LabelClass: x.id("label_class", false),
			Waste: x.id("waste", false), Exit: x.exit("exit"), ExitDays: uint32(x.whole("exit_days", 365)),
			KeptAt: x.place("kept_at", false), KeptWords: x.label("kept_words", false),
			Alternatives: x.numbers("alternatives"), Source: x.label("source", true),
		}
		v.Flags = x.flags(v.Group)
		if v.Name == mesh.Label(strings.ToUpper(string(v.Name))) && len(v.Name) > 3 {
			x.fail("name", "%q is all capitals", v.Name)
		}
		if seen[v.Number] {
			x.fail("number", "%d is there twice", v.Number)
		}
		if v.Flags&IsDrug != 0 && (v.Content.N == 0 || v.Detail == "") {
			x.fail("content", "a drug is name, strength and container content")
		}
		seen[v.Number] = true
		out = append(out, v)
	})
	return out, err
}

// Groups of the catalogue that carry a meaning for the program.
const (
	GroupDrug   mesh.ID = "drug"
	GroupPeople mesh.ID = "people"
	GroupBundle mesh.ID = "bundle"
	GroupOut    mesh.ID = "out"
)

// flags are those that columns and group state.
func (x *row) flags(group mesh.ID) (f Flags) {
	for _, c := range [...]struct {
		column string
		flag   Flags
	}{{"controlled", Controlled}, {"must_be_seen", MustBeSeen}, {"high_alert", HighAlert}, {"look_alike", LookAlike}} {
		if x.yes(c.column) {
			f |= c.flag
		}
	}
	switch x.text("use") {
	case "reprocessed":
		f |= Reprocessed
	case "single", "none":
	default:
		x.fail("use", "%q is none of single, reprocessed, none", x.text("use"))
	}
	switch group {
	case GroupDrug:
		f |= IsDrug
	case GroupPeople:
		f |= IsPerson
	case GroupBundle:
		f |= IsBundle
	case GroupOut:
		f |= ComesOut
	}
	return f
}

func (x *row) measure(column string) mesh.Measure {
	m, ok := ParseMeasure(x.text(column))
	if !ok {
		x.fail(column, "%q is not a measure", x.text(column))
	}
	return m
}

// ParseMeasure reads a base measure by its word.
func ParseMeasure(word string) (mesh.Measure, bool) {
	switch word {
	case "each":
		return mesh.Each, true
	case "microgram":
		return mesh.Microgram, true
	case "microlitre":
		return mesh.Microlitre, true
	case "unit":
		return mesh.Unit, true
	case "micromole":
		return mesh.Micromole, true
	}
	return 0, false
}

// amount is a whole number and a base measure; an empty cell is none.
func (x *row) amount(column string) Quantity {
	if x.text(column) == "" {
		return Quantity{}
	}
	digits, word, _ := strings.Cut(x.text(column), " ")
	n, err := strconv.ParseInt(digits, 10, 64)
	m, ok := ParseMeasure(word)
	if err != nil || !ok || n < 1 || n > QuantityMax {
		x.fail(column, "%q is not an amount such as 50000 microgram", x.text(column))
		return Quantity{}
	}
	return Quantity{n, m}
}

func (x *row) exit(column string) ExitPolicy {
	switch x.text(column) {
	case "discard":
		return Discard
	case "decontaminate":
		return Decontaminate
	case "quarantine":
		return QuarantineDays
	case "return-untaken":
		return ReturnUntaken
	}
	x.fail(column, "%q is none of discard, decontaminate, quarantine, return-untaken", x.text(column))
	return 0
}

// numbers are spoken numbers with spaces between.
func (x *row) numbers(column string) (out []mesh.Number) {
	for _, f := range strings.Fields(x.text(column)) {
		out = append(out, x.spoken(column, f))
	}
	return out
}

// BundleColumns is the heading of the bundles.
func BundleColumns() []string {
	return []string{"number", "name", "rescue", "lies_at", "lies_words", "item", "count", "where", "source"}
}

// ReadBundles reads bundles, one row for each line of a bundle. The rows of one
// bundle follow each other and repeat what is said of the whole.
func ReadBundles(b []byte) (out []BundleLine, err error) {
	seen := map[mesh.Number]int{}
	err = readTable(b, BundleColumns(), func(x *row) {
		v := BundleLine{
			Number: x.numbered("number"), Name: x.label("name", true), Rescue: x.id("rescue", false),
			LiesAt: x.place("lies_at", true), Words: x.label("lies_words", true), Source: x.label("source", true),
		}
		line := TemplateLine{Item: x.numbered("item"), Count: x.whole("count", 999), Where: x.where("where")}
		if line.Count == 0 {
			x.fail("count", "it is 0")
		}
		at, old := seen[v.Number]
		switch {
		case !old:
			seen[v.Number] = len(out)
			at, out = len(out), append(out, v)
		case at != len(out)-1:
			x.fail("number", "the rows of bundle %d do not follow each other", v.Number)
		case out[at].Name != v.Name || out[at].Rescue != v.Rescue || out[at].LiesAt != v.LiesAt || out[at].Words != v.Words:
			x.fail("name", "bundle %d is described in two ways", v.Number)
		}
		out[at].Lines = append(out[at].Lines, line)
	})
	return out, err
}

func (x *row) where(column string) mesh.ID {
	switch v := x.id(column, true); v {
	case WhereInside, WhereAtDoor, WhereOutside:
		return v
	}
	x.fail(column, "%q is none of inside, door, outside", x.text(column))
	return ""
}

// TemplateColumns is the heading of the templates of kits.
func TemplateColumns() []string { return []string{"id", "name", "item", "count", "where", "source"} }

// ReadTemplates reads what kits are prepared from, one row for each line of a
// template. The rows of one template follow each other and repeat its name.
func ReadTemplates(b []byte) (out []Template, err error) {
	seen := map[mesh.ID]int{}
	err = readTable(b, TemplateColumns(), func(x *row) {
		v := Template{ID: x.id("id", true), Name: x.label("name", true), Source: x.label("source", true)}
		line := TemplateLine{Item: x.numbered("item"), Count: x.whole("count", 999), Where: x.where("where")}
		if line.Count == 0 {
			x.fail("count", "it is 0")
		}
		at, old := seen[v.ID]
		switch {
		case !old:
			seen[v.ID] = len(out)
			at, out = len(out), append(out, v)
		case at != len(out)-1:
			x.fail("id", "the rows of template %s do not follow each other", v.ID)
		case out[at].Name != v.Name:
			x.fail("name", "template %s has two names", v.ID)
		}
		out[at].Lines = append(out[at].Lines, line)
	})
	return out, err
}

// PlaceColumns is the heading of the places.
func PlaceColumns() []string { return []string{"place", "name", "shelf", "source"} }

// ReadPlaces reads what places are called.
func ReadPlaces(b []byte) (out []PlaceLine, err error) {
	err = readTable(b, PlaceColumns(), func(x *row) {
		x.label("source", true)
		out = append(out, PlaceLine{Place: x.place("place", true), Name: x.label("name", true), Shelf: x.label("shelf", false)})
	})
	return out, err
}

// WasteColumns is the heading of the classes of waste.
func WasteColumns() []string { return []string{"class", "country", "code", "name", "source"} }

// ReadWaste reads classes of waste. Codes stay text.
func ReadWaste(b []byte) (out []WasteLine, err error) {
	err = readTable(b, WasteColumns(), func(x *row) {
		out = append(out, WasteLine{
			Class: x.id("class", true), Country: x.id("country", true), Code: x.label("code", true),
			Name: x.label("name", true), Source: x.label("source", true),
		})
	})
	return out, err
}

// StockLine is how many of an item a place should hold, and how many it holds
// at the beginning.
type StockLine struct {
	Place   Place
	Item    mesh.Number
	Par     int64
	Opening int64
}

// StockColumns is the heading of a stock list.
func StockColumns() []string { return []string{"place", "item", "par", "opening", "source"} }

// ReadStock reads par levels and opening stock, in containers.
func ReadStock(b []byte) (out []StockLine, err error) {
	err = readTable(b, StockColumns(), func(x *row) {
		x.label("source", true)
		out = append(out, StockLine{
			Place: x.place("place", true), Item: x.numbered("item"),
			Par: x.whole("par", 9999), Opening: x.whole("opening", 9999),
		})
	})
	return out, err
}
