package look

import (
	"image/color"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// writing makes the lines of one part and remembers from where each is read.
type writing struct {
	look  *Look
	roles map[*canvas.Text]Role
}

func newWriting(l *Look) writing { return writing{look: l, roles: map[*canvas.Text]Role{}} }

// RoleOf tells from where a line of this part is read; false for lines of others.
func (w writing) RoleOf(t *canvas.Text) (Role, bool) {
	r, ok := w.roles[t]
	return r, ok
}

// lines is a text of at most a few lines, all of one size.
type lines struct {
	look   *Look
	role   Role
	strong bool
	texts  []*canvas.Text
}

// lines makes room for a text of at most n lines.
func (w writing) lines(r Role, strong bool, n int) *lines {
	out := &lines{look: w.look, role: r, strong: strong}
	for range n {
		t := canvas.NewText("", color.Transparent)
		t.FontSource = w.look.plain
		if strong {
			t.FontSource = w.look.strong
		}
		w.roles[t] = r
		out.texts = append(out.texts, t)
	}
	return out
}

func (t *lines) objects() (all []fyne.CanvasObject) {
	for _, one := range t.texts {
		all = append(all, one)
	}
	return all
}

// measure gives the width of a text at a size in dp.
func (t *lines) measure(size float32) func(string) float32 {
	return func(text string) float32 {
		box, _ := fyne.CurrentApp().Driver().RenderedTextSize(text, size, fyne.TextStyle{}, t.texts[0].FontSource)
		return box.Width
	}
}

// height is that of n lines at a size.
func lineHeight(size float32, n int) float32 { return size * lineShare * float32(n) }

// ink is how a text is drawn.
type ink struct {
	size  float32
	color color.NRGBA
	align fyne.TextAlign
}

// write puts a text into a box, from its upper edge, and tells how high it
// became. What does not fit ends with "…".
func (t *lines) write(text string, k ink, x, y, width float32) (height float32) {
	return t.writeRows(text, k, x, y, width, len(t.texts))
}

// writeRows is write with fewer rows, but at least one.
func (t *lines) writeRows(text string, k ink, x, y, width float32, most int) (height float32) {
	rows := wrap(text, width, min(max(most, 1), len(t.texts)), t.measure(k.size))
	for i, one := range t.texts {
		one.Text = ""
		one.Color, one.TextSize, one.Alignment = k.color, k.size, k.align
		if i < len(rows) {
			one.Text = rows[i]
		}
		rise := k.size * (boxShare - lineShare) / 2
		place(one, x, y+lineHeight(k.size, i)-rise, width, k.size*boxShare)
	}
	return lineHeight(k.size, len(rows))
}

// whole tells whether a text would stand there with no word cut or broken.
func (t *lines) whole(text string, size, width float32) bool {
	rows := wrap(text, width, len(t.texts), t.measure(size))
	spaces := strings.NewReplacer(" ", "", "\n", "")
	return spaces.Replace(strings.Join(rows, "")) == spaces.Replace(text)
}

// Cut ends a text that did not fit.
const Cut = "…"

// wrap breaks a text at its spaces into at most n rows of a width. A word that
// is wider than a row is broken with a hyphen; what is left over at the end is
// cut, and ends with Cut.
func wrap(text string, width float32, n int, measure func(string) float32) (rows []string) {
	words := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\n' })
	for len(words) > 0 && len(rows) < n {
		row := words[0]
		words = words[1:]
		for len(words) > 0 && measure(row+" "+words[0]) <= width {
			row += " " + words[0]
			words = words[1:]
		}
		last := len(rows) == n-1
		if last && (measure(row) > width || len(words) > 0) {
			return append(rows, shorten(strings.Join(append([]string{row}, words...), " "), width, measure))
		}
		if measure(row) > width {
			head, rest := broken(row, width, measure)
			if rest == "" {
				return append(rows, shorten(row, width, measure))
			}
			row, words = head+"-", append([]string{rest}, words...)
		}
		rows = append(rows, row)
	}
	return rows
}

// brokenMin is the least number of characters on either side of a break.
const brokenMin = 3

// broken parts a word that is wider than a row, best where capitals end as in
// tall-man letters; rest is empty if no part fits.
func broken(word string, width float32, measure func(string) float32) (head, rest string) {
	runes := []rune(word)
	best := 0
	for n := brokenMin; n <= len(runes)-brokenMin && measure(string(runes[:n])+"-") <= width; n++ {
		tall := n >= 2 && unicode.IsUpper(runes[n-1]) && unicode.IsUpper(runes[n-2]) && unicode.IsLower(runes[n])
		if tall {
			return string(runes[:n]), string(runes[n:])
		}
		best = n
	}
	if best == 0 {
		return word, ""
	}
	return string(runes[:best]), string(runes[best:])
}

// shorten keeps as much of a text as fits together with Cut.
func shorten(text string, width float32, measure func(string) float32) string {
	runes := []rune(text)
	least, most := 0, len(runes)
	for least < most {
		middle := (least + most + 1) / 2
		if measure(string(runes[:middle])+Cut) <= width {
			least = middle
		} else {
			most = middle - 1
		}
	}
	return strings.TrimRight(string(runes[:least]), " ") + Cut
}
