package proof

import (
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/assets"
)

func newLook(t *testing.T, shade look.Shade, reads look.Role) *look.Look {
	o := look.Defaults()
	o.Shade, o.Reads = shade, reads
	l, err := look.New(o)
	require.NoError(t, err)
	return l
}

// placed puts objects where a test wants them, in mm: left, top, width, height.
type placed struct {
	look *look.Look
	box  *fyne.Container
}

func newPlaced(l *look.Look) placed { return placed{l, container.NewWithoutLayout()} }

func (p placed) put(o fyne.CanvasObject, left, top, width, height float32) {
	o.Move(fyne.NewPos(p.look.MM(left), p.look.MM(top)))
	o.Resize(fyne.NewSize(p.look.MM(width), p.look.MM(height)))
	p.box.Add(o)
}

// inside is a board of every part that is tapped or read inside: 256 × 160 mm.
func inside(l *look.Look) fyne.CanvasObject {
	p := newPlaced(l)
	faces := []look.TileFace{
		{Number: "11", Word: "Bougie", Detail: "15 Fr"},
		{Number: "12", Word: "Tracheal tube, cuffed", Detail: "7.0"},
		{Number: "13", Word: "Ketamine", Detail: "50\u00a0mg/mL, 10\u00a0mL", Icon: look.IconDrug},
		{Number: "14", Word: "Suction catheter", Detail: "12 Fr", Note: "asked 0:12", Tone: look.ToneNext},
		{Number: "15", Word: "HYDROmorphone", Detail: "2\u00a0mg/mL", Icon: look.IconDrug, Tone: look.ToneNow},
		{Number: "21", Word: "Face mask", Detail: "size 4", Off: true},
		{Number: "22", Word: "Person to help", Icon: look.IconPerson, Tone: look.ToneBefore},
	}
	for i, f := range faces {
		t := look.NewTile(l, look.UseInside, nil)
		t.Set(f)
		p.put(t, 4+float32(i%5)*50, 4+float32(i/5)*36, 47, 33)
	}
	rescue := look.NewTile(l, look.UseRescue, nil)
	rescue.Set(look.TileFace{Number: "B", Word: "Rescue set B", Detail: "in the room, trolley left", Tone: look.ToneRescue})
	p.put(rescue, 104, 40, 60, 31)
	withdraw := look.NewTile(l, look.UseWithdraw, nil)
	withdraw.Set(look.TileFace{Word: "Withdraw", Icon: look.IconWithdraw})
	p.put(withdraw, 201, 51, 50, 20)
	banner := look.NewBanner(l, look.InsideTile, 1)
	banner.Set(look.BannerFace{Icon: look.IconLinkLost, Sentence: "No runner in reach.", Hint: "Show the sign at the glass.", Tone: look.ToneFault})
	p.put(banner, 4, 76, 180, 10)
	badge := look.NewBadge(l, look.InsideTile)
	badge.Set(look.BadgeFace{Icon: look.IconLinkUp, Word: "R1, R2"})
	p.put(badge, 190, 76, 60, 10)
	two := look.NewStrip(l, 2)
	two.Set(look.StripFace{Word: "Ketamine 50\u00a0mg/mL, 10\u00a0mL × 2", State: "R1 is going", Age: "0:42", Icon: look.IconRunner, Tone: look.ToneNow})
	p.put(two, 4, 87, 247, 33)
	strips := []look.StripFace{
		{Word: "Bougie × 1", State: "saved here only", Age: "0:03", Icon: look.IconSaved, Tone: look.ToneNext},
		{Word: "Face mask", State: "not saved", Age: "0:01", Icon: look.IconNotSaved, Tone: look.ToneFault},
	}
	for i, f := range strips {
		s := look.NewStrip(l, 1)
		s.Set(f)
		p.put(s, 4, 124+float32(i)*18, 247, 16.1)
	}
	return p.box
}

// outside is what a runner sees: 256 × 160 mm.
func outside(l *look.Look) fyne.CanvasObject {
	p := newPlaced(l)
	c := look.NewCard(l)
	c.Set(look.CardFace{Door: "A1", Count: "2 amp", Word: "Ketamine", Detail: "50\u00a0mg/mL, 10\u00a0mL", Place: "drug cupboard, shelf 2", State: "now · asked", Age: "0:42", Icon: look.IconUrgent, Tone: look.ToneNow})
	p.put(c, 4, 4, 150, 52)
	n := look.NewCard(l)
	n.Set(look.CardFace{Door: "B12", Count: "1", Word: "Tracheal tube, cuffed", Detail: "7.0", Place: "airway trolley, drawer 2", State: "R1 is going", Age: "12:42", Icon: look.IconRunner, Tone: look.ToneBefore})
	p.put(n, 162, 4, 90, 86)
	s := look.NewStepper(l, look.UseOutside, func(int) {})
	s.Set(look.StepperFace{Value: "2", Measure: "ampoules", NoMore: true})
	p.put(s, 4, 57, 80, 26)
	going := look.NewTile(l, look.UseOutside, nil)
	going.Set(look.TileFace{Word: "I am going", Icon: look.IconRunner})
	p.put(going, 90, 58, 64, 26)
	k := look.NewKeypad(l, look.UseOutside, look.KeypadKeys{})
	k.Set(look.KeypadFace{Erase: "erase", Done: "done", DoneOff: true})
	p.put(k, 4, 86, 80, 70)
	sign := look.NewBigWord(l, look.WallWord)
	sign.Set(look.BigWordFace{Word: "Bougie"})
	p.put(sign, 90, 93, 100, 29)
	door := look.NewBigWord(l, look.WallWord)
	door.Set(look.BigWordFace{Word: "A1", Tone: look.ToneDrill})
	p.put(door, 196, 93, 56, 29)
	f := look.NewFault(l, look.RunnerLine, 2)
	f.Say("There is no request 12345.", "The board lists them.")
	p.put(f, 90, 124, 162, 21)
	clock := look.NewClock(l, look.RunnerLine, look.Large)
	clock.Set(look.ClockFace{Time: look.ClockText(3725e9)})
	p.put(clock, 90, 145.5, 70, 14.5)
	return p.box
}

// Goal: the parts keep the design when they are used as meant, in both shades.
// Method: audit two boards that hold all of them; with LINTEL_PICTURES set to a
// folder the boards are drawn into it, to be looked at.
func TestBoardsOfEveryPartKeepTheDesign(t *testing.T) {
	window := fyne.NewSize(1280, 800)
	for name, shade := range map[string]look.Shade{"dark": look.Dark, "light": look.Light} {
		boards := map[string]func(*look.Look) fyne.CanvasObject{"inside": inside, "outside": outside}
		for board, build := range boards {
			reads := map[string]look.Role{"inside": look.InsideTile, "outside": look.RunnerLine}[board]
			l := newLook(t, shade, reads)
			require.Empty(t, Audit(l, build(l), window), "%s, %s", board, name)
			if folder := os.Getenv("LINTEL_PICTURES"); folder != "" {
				draw(t, filepath.Join(folder, board+"-"+name+".png"), l, build(l), window)
			}
		}
	}
}

// phone is a runner's phone: 70 × 148 mm.
func phone(l *look.Look) fyne.CanvasObject {
	p := newPlaced(l)
	banner := look.NewBanner(l, look.RunnerLine, 1)
	banner.Set(look.BannerFace{Icon: look.IconSoundOff, Sentence: "Sound off"})
	p.put(banner, 1, 1, 68, 12)
	c := look.NewCard(l)
	c.Set(look.CardFace{Door: "A1", Count: "2\u00a0amp", Word: "Ketamine", Detail: "50\u00a0mg/mL, 10\u00a0mL", Place: "drug cupboard, shelf 2", State: "now", Age: "0:42", Icon: look.IconUrgent, Tone: look.ToneNow})
	p.put(look.NewPress(l, look.UseOutside, c, nil), 1, 15, 68, 96)
	going, cannot := look.NewTile(l, look.UseOutside, nil), look.NewTile(l, look.UseOutside, nil)
	going.Set(look.TileFace{Word: "I am going"})
	cannot.Set(look.TileFace{Word: "Cannot"})
	p.put(going, 1, 115, 68, 14)
	p.put(cannot, 1, 133, 68, 14)
	return p.box
}

// Goal: the parts keep the design on a phone as well. Method: as above, at the
// density of phones.
func TestPartsFitAPhone(t *testing.T) {
	for name, shade := range map[string]look.Shade{"dark": look.Dark, "light": look.Light} {
		o := look.Defaults()
		o.Density, o.Shade, o.Reads = look.DensityMobile, shade, look.RunnerLine
		l, err := look.New(o)
		require.NoError(t, err)
		window := fyne.NewSize(l.MM(70), l.MM(148))
		require.Empty(t, Audit(l, phone(l), window), name)
		if folder := os.Getenv("LINTEL_PICTURES"); folder != "" {
			draw(t, filepath.Join(folder, "phone-"+name+".png"), l, phone(l), window)
		}
	}
}

// Goal: icons look like one family. Method: all of them in one picture, drawn
// only with LINTEL_PICTURES set; always audited.
func TestIconsStandOutOnTheirGround(t *testing.T) {
	for name, shade := range map[string]look.Shade{"dark": look.Dark, "light": look.Light} {
		l := newLook(t, shade, look.InsideTile)
		p := newPlaced(l)
		for i, drawing := range assets.IconNames() {
			picture := look.NewPicture(l, look.InsideTile)
			picture.Set(look.PictureFace{Icon: look.Icon(drawing), Alert: i%2 == 1})
			p.put(picture, 4+float32(i%9)*28, 4+float32(i/9)*28, 24, 24)
		}
		require.Empty(t, Audit(l, p.box, fyne.NewSize(1280, 740)))
		if folder := os.Getenv("LINTEL_PICTURES"); folder != "" {
			draw(t, filepath.Join(folder, "icons-"+name+".png"), l, p.box, fyne.NewSize(1280, 740))
		}
	}
}

func draw(t *testing.T, path string, l *look.Look, o fyne.CanvasObject, window fyne.Size) {
	file, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, png.Encode(file, Picture(l, o, window, 1)))
	require.NoError(t, file.Close())
}
