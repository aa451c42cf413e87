package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// DrugLabelFace is how a drug is read: never in capitals only.
type DrugLabelFace struct {
	Name     string // in tall-man letters where the unit's table has them
	Strength string // "50 mg/mL"
	Volume   string // of one container; may be empty
	Count    string // how many, with its measure; may be empty
	Warning  string // "high alert", "looks like another": said on the band where there is room beside the class
	Band     Band   // class, with its word
}

// DrugLabel is a drug by its label: the band of its class with the class word,
// its name, and strength and volume in letters as large as its name's. Letters
// grow with the box; they are the small ones of its role only where nothing
// larger fits.
type DrugLabel struct {
	widget.BaseWidget
	writing
	role                          Role
	face                          DrugLabelFace
	field                         *canvas.Rectangle
	band                          *bandPart
	name, strength, volume, count *lines
}

// NewDrugLabel makes an empty one that is read from where a role reads.
func NewDrugLabel(l *Look, r Role) *DrugLabel {
	w := newWriting(l)
	d := &DrugLabel{
		writing: w, role: r, field: canvas.NewRectangle(color.Transparent), band: w.band(r),
		name: w.lines(r, true, 2), strength: w.lines(r, true, 1), volume: w.lines(r, true, 1), count: w.lines(r, true, 1),
	}
	d.ExtendBaseWidget(d)
	return d
}

// Set shows another drug.
func (d *DrugLabel) Set(f DrugLabelFace) { setFace(&d.face, f, d.Refresh) }

// Face is what it shows.
func (d *DrugLabel) Face() DrugLabelFace { return d.face }

// CreateRenderer is part of fyne.Widget.
func (d *DrugLabel) CreateRenderer() fyne.WidgetRenderer {
	objects := append([]fyne.CanvasObject{d.field}, d.band.objects()...)
	for _, l := range []*lines{d.name, d.strength, d.volume, d.count} {
		objects = append(objects, l.objects()...)
	}
	return &painted{owner: d, objects: objects, lay: d.lay, least: func() fyne.Size {
		l := d.look
		small := l.Letters(d.role, Small)
		return fyne.NewSize(l.MM(40), d.bandHigh()+lineHeight(small, 3)+l.MM(2*paddingMM))
	}}
}

func (d *DrugLabel) bandHigh() float32 {
	return lineHeight(d.look.Letters(d.role, Small), 1) + d.look.MM(paddingMM)
}

func (d *DrugLabel) lay(size fyne.Size) {
	l, f, pad := d.look, d.face, d.look.MM(paddingMM)
	fill, small := l.palette.Fill(TonePlain), l.Letters(d.role, Small)
	l.paintPanel(d.field, fill, size)
	high := d.bandHigh()
	d.band.lay(f.Band, f.Band.Word, f.Warning, small, box{0, 0, size.Width, high})
	in := box{pad, high + pad, size.Width - 2*pad, size.Height - high - 2*pad}
	letter := d.largest(in)
	k := ink{size: letter, color: fill.Ink}
	name := min(wrappedHeight(d.name, f.Name, letter, in.width), lineHeight(letter, 2))
	rows := 1
	if !d.besides(letter, in.width) {
		rows = 2
	}
	y := in.y + max(0, (in.height-name-lineHeight(letter, rows))/2)
	y += d.name.write(f.Name, k, in.x, y, in.width)
	d.layAmounts(k, box{in.x, y, in.width, letter}, rows)
}

// layAmounts puts strength and volume, with the count behind them, on one row or two.
func (d *DrugLabel) layAmounts(k ink, in box, rows int) {
	f, gap := d.face, k.size/2
	x, y := in.x, in.y
	wide := d.strength.measure(k.size)(f.Strength) + 1
	d.strength.write(f.Strength, k, x, y, min(wide, in.width))
	if x += wide + gap; rows == 2 {
		x, y = in.x, y+lineHeight(k.size, 1)
	}
	count := d.count.measure(k.size)(f.Count) + 1
	room := in.x + in.width - x
	if f.Count != "" {
		room -= count + gap
	}
	d.volume.write(f.Volume, k, x, y, max(0, room))
	k.align = fyne.TextAlignTrailing
	d.count.write(f.Count, k, in.x+in.width-count, y, count)
}

// besides tells whether strength, volume and count fit on one row of a size.
func (d *DrugLabel) besides(letter, width float32) bool {
	total := float32(0)
	for _, said := range []string{d.face.Strength, d.face.Volume, d.face.Count} {
		if said != "" {
			total += d.strength.measure(letter)(said) + letter/2 + 1
		}
	}
	return total-letter/2 <= width
}

// fits tells whether everything stands in a box with letters of a size.
func (d *DrugLabel) fits(letter float32, in box) bool {
	f := d.face
	behind := d.volume.measure(letter)(f.Volume)
	if f.Count != "" {
		behind += d.count.measure(letter)(f.Count) + letter/2
	}
	rows := 1
	if !d.besides(letter, in.width) {
		rows = 2
	}
	return d.name.whole(f.Name, letter, in.width) && wrappedHeight(d.name, f.Name, letter, in.width)+lineHeight(letter, rows) <= in.height+1 &&
		d.strength.measure(letter)(f.Strength)+1 <= in.width && behind+2 <= in.width
}

// largest halves its way to the largest letters that fit, within half a dp.
func (d *DrugLabel) largest(in box) float32 {
	least := d.look.Letters(d.role, Small)
	most := max(least, in.height)
	for most-least > 0.5 {
		if middle := (least + most) / 2; d.fits(middle, in) {
			least = middle
		} else {
			most = middle
		}
	}
	return least
}
