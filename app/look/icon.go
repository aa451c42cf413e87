package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"lintel/assets"
)

// Icon names a drawing of ours; the zero value draws nothing.
type Icon string

// The drawings. A word stands beside each.
const (
	IconNone         Icon = ""
	IconLinkUp       Icon = "link-up"
	IconLinkDoubtful Icon = "link-doubtful"
	IconLinkLost     Icon = "link-lost"
	IconSaved        Icon = "saved"
	IconNotSaved     Icon = "not-saved"
	IconCopies       Icon = "copies"
	IconRunner       Icon = "runner"
	IconDoor         Icon = "door"
	IconHand         Icon = "hand"
	IconLoop         Icon = "loop"
	IconWithdraw     Icon = "withdraw"
	IconUrgent       Icon = "urgent"
	IconClock        Icon = "clock"
	IconBattery      Icon = "battery"
	IconKit          Icon = "kit"
	IconDrug         Icon = "drug"
	IconPerson       Icon = "person"
	IconUndo         Icon = "undo"
	IconSearch       Icon = "search"
	IconSettings     Icon = "settings"
	IconGlassSign    Icon = "glass-sign"
	IconSoundOff     Icon = "sound-off"
	IconSoundOn      Icon = "sound-on"
	IconErase        Icon = "erase"
	IconMore         Icon = "more"
	IconLess         Icon = "less"
	IconLock         Icon = "lock"
	IconPeople       Icon = "people"
	IconBreach       Icon = "breach"
	IconSpeak        Icon = "speak"
	IconList         Icon = "list"
	IconDrill        Icon = "drill"
	IconAir          Icon = "air"
	IconSheet        Icon = "sheet"
	IconWipe         Icon = "wipe"
	IconCompare      Icon = "compare"
)

type iconKey struct {
	icon Icon
	ink  color.NRGBA
}

// drawing is an icon in one colour. It tells its colour to whoever checks contrast.
type drawing struct {
	fyne.Resource
	ink color.NRGBA
}

// Ink is the colour that the icon is drawn in.
func (d *drawing) Ink() color.NRGBA { return d.ink }

// IconInk gives an icon in a colour, as the toolkit takes it; nil for IconNone and for
// what is no drawing of ours.
func (l *Look) IconInk(i Icon, ink color.NRGBA) fyne.Resource {
	key := iconKey{i, ink}
	if d, ok := l.icons[key]; ok {
		return d
	}
	svg, ok := assets.Icon(string(i))
	if !ok {
		return nil
	}
	d, ok := StrokesInk(string(i), svg, drawingSide, ink).(*drawing)
	if !ok {
		return nil
	}
	l.icons[key] = d
	return d
}

// paintIcon puts an icon into an image, or hides it.
func (l *Look) paintIcon(image *canvas.Image, i Icon, ink color.NRGBA) {
	res := l.IconInk(i, ink)
	if res == nil {
		image.Hide()
		return
	}
	if image.Resource != res {
		image.Resource = res
		image.Refresh()
	}
	image.Show()
}

func newIconImage() *canvas.Image {
	image := &canvas.Image{FillMode: canvas.ImageFillContain}
	image.Hide()
	return image
}

// PictureFace is what a Picture shows.
type PictureFace struct {
	Icon  Icon
	Alert bool // in the colour of trouble
}

// Picture is an icon by itself, as high as the large letters of its role.
type Picture struct {
	widget.BaseWidget
	look  *Look
	role  Role
	face  PictureFace
	image *canvas.Image
}

// NewPicture makes an empty one.
func NewPicture(l *Look, r Role) *Picture {
	p := &Picture{look: l, role: r, image: newIconImage()}
	p.ExtendBaseWidget(p)
	return p
}

// Set shows another icon.
func (p *Picture) Set(f PictureFace) { setFace(&p.face, f, p.Refresh) }

// CreateRenderer is part of fyne.Widget.
func (p *Picture) CreateRenderer() fyne.WidgetRenderer {
	return &painted{
		owner: p, objects: []fyne.CanvasObject{p.image},
		least: func() fyne.Size { s := p.look.Letters(p.role, Large); return fyne.NewSquareSize(s) },
		lay: func(size fyne.Size) {
			ink := p.look.palette.Ink
			if p.face.Alert {
				ink = p.look.palette.Alert
			}
			p.look.paintIcon(p.image, p.face.Icon, ink)
			place(p.image, 0, 0, size.Width, size.Height)
		},
	}
}
