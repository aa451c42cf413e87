package inside

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
)

// shelf is a page of the catalogue that is one tap from the board: the items of
// some groups, or of a part of a large one by first letters.
type shelf struct {
	groups   []mesh.ID
	from, to string // first letters of a part; empty: the groups are whole
	items    []Item // in their places
}

// shelvesMax is how many shelves a board has parts for.
const shelvesMax = 8

// shelves puts all items on at most so many shelves with room for so many each. A
// group stays together where it fits; a large one is parted by letters. What does
// not fit any more follows on the last shelf, whose pages are turned. The same
// catalogue gives the same places.
func shelves(w words.Words, s Snapshot, room, most int) (out []shelf) {
	if room < 1 || most < 1 {
		return nil
	}
	for _, group := range shelfOrder(s) {
		items := onShelf(s, group)
		if len(items) == 0 {
			continue
		}
		parts := (len(items) + room - 1) / room
		for n := range parts {
			x := shelf{groups: []mesh.ID{group}, items: items[n*len(items)/parts : (n+1)*len(items)/parts]}
			if parts > 1 {
				x.from, x.to = letter(x.items[0]), letter(x.items[len(x.items)-1])
			}
			if last := len(out) - 1; last >= 0 && parts == 1 && len(out[last].items)+len(items) <= room && out[last].named(w, group) {
				out[last].groups = append(out[last].groups, group)
				out[last].items = append(slices.Clone(out[last].items), items...)
				continue
			}
			out = append(out, x)
		}
	}
	for len(out) > most {
		last := len(out) - 1
		out[last-1].groups = append(out[last-1].groups, out[last].groups...)
		out[last-1].items = append(slices.Clone(out[last-1].items), out[last].items...)
		out = out[:last]
	}
	return out
}

// shelfOrder is the groups of the catalogue in the order of shelves: drugs last,
// as they are most, and those nobody named before them.
func shelfOrder(s Snapshot) (out []mesh.ID) {
	known := []mesh.ID{"airway", "breathing", "line", "monitoring", "fluid", "people", "ppe", "out", "cleaning"}
	var own []mesh.ID
	for _, i := range s.Items {
		if g := groupOf(i); g != "drug" && !slices.Contains(known, g) {
			own = append(own, g)
		}
	}
	slices.Sort(own)
	return append(append(known, slices.Compact(own)...), "drug")
}

// onShelf are the items of a group, by name; rescue sets have places of their own.
func onShelf(s Snapshot, group mesh.ID) (out []Item) {
	for _, i := range s.Items {
		if groupOf(i) == group && !slices.ContainsFunc(s.Sets, func(x Set) bool { return x.Number == i.Number }) {
			out = append(out, i)
		}
	}
	slices.SortFunc(out, func(a, b Item) int {
		return cmp.Or(strings.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)), cmp.Compare(a.Number, b.Number))
	})
	return out
}

// letter is the first letter of an item's name.
func letter(i Item) string {
	r, _ := utf8.DecodeRuneInString(i.Name)
	return string(unicode.ToUpper(r))
}

// groupOf is the group that an item is found with: a tray lies with what is in it.
func groupOf(i Item) mesh.ID {
	if i.Group == "bundle" {
		return "airway"
	}
	return i.Group
}

// A shelf's tile has room for its groups in so many rows of so many letters.
const (
	shelfRows    = 3
	shelfLetters = 6
)

// named tells whether the tile of a shelf has room for one more group's word.
func (x shelf) named(w words.Words, more mesh.ID) bool {
	x.groups = append(slices.Clone(x.groups), more)
	f := x.face(w)
	return wraps(f.Word, shelfLetters)+wraps(f.Detail, shelfLetters) <= shelfRows
}

// face is what stands on the tile that leads to a shelf.
func (x shelf) face(w words.Words) look.TileFace {
	var all []string
	for _, g := range x.groups {
		all = append(all, shelfWord(w, g))
	}
	f := look.TileFace{Word: strings.Join(all, " ")}
	if x.from != "" {
		f.Word = shelfWord(w, x.groups[0])
		f.Detail = strings.Join(append([]string{w.Say("inside.shelf.part", x.from, x.to)}, all[1:]...), " ")
	}
	return f
}

// shelfWord is a group in a word that fits a narrow tile; one that the unit
// named itself as it is.
func shelfWord(w words.Words, group mesh.ID) string {
	if slices.Contains(groupNames(), group) {
		return w.Say("shelf." + words.ID(group))
	}
	return string(group)
}

// shelfFaces are the items of a shelf as they stand on their tiles.
func shelfFaces(x shelf) (out []look.TileFace) {
	for _, i := range x.items {
		out = append(out, look.TileFace{Word: i.Name, Detail: words.Measured(i.Detail)})
	}
	return out
}
