package assets

import "embed"

// font/           IBM Plex Sans as its makers ship it, under the SIL Open Font License 1.1
//
//	(font/OFL.txt): digits of one width, I, l and 1 unlike each other
//
// icons/          our own drawings: one stroke of 2 in a field of 24, black, no fill
var (
	//go:embed font/IBMPlexSans-Regular.ttf
	fontPlain string
	//go:embed font/IBMPlexSans-SemiBold.ttf
	fontStrong string
	//go:embed font/OFL.txt
	fontLicence string
	//go:embed icons/*.svg
	icons embed.FS
)

// FontPlain returns a copy of the text font, TrueType.
func FontPlain() []byte { return []byte(fontPlain) }

// FontStrong returns a copy of the font for what must be seen first, TrueType.
func FontStrong() []byte { return []byte(fontStrong) }

// FontLicence returns the licence of both fonts.
func FontLicence() string { return fontLicence }

// Icon returns a copy of the drawing with that name, SVG; false if there is none.
func Icon(name string) ([]byte, bool) {
	drawing, err := icons.ReadFile("icons/" + name + ".svg")
	return drawing, err == nil
}

// IconNames lists the drawings, sorted.
func IconNames() []string {
	entries, _ := icons.ReadDir("icons") // the folder is embedded
	names := make([]string, 0, len(entries))
	for _, e := range entries {
		names = append(names, e.Name()[:len(e.Name())-len(".svg")])
	}
	return names
}
