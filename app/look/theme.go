package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// themed is the look for the toolkit's own widgets. Two are equal if they are of
// one look and neither its colours nor its sizes changed in between.
type themed struct {
	look  *Look
	shade Shade
	scale Scale
}

// Theme gives the look to the toolkit's own widgets: its colours, its font and
// text that is high enough for where the screen is read from. The variant that
// the system asks for is left aside: the shade is the look's.
func (l *Look) Theme() fyne.Theme { return themed{l, l.palette.Shade, l.scale} }

// Color is part of fyne.Theme.
func (t themed) Color(name fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	p := t.look.palette
	switch name {
	case theme.ColorNameBackground, theme.ColorNameHeaderBackground:
		return p.Ground
	case theme.ColorNameButton, theme.ColorNameInputBackground, theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground, theme.ColorNameDisabledButton:
		return p.Surface
	case theme.ColorNameHover, theme.ColorNamePressed, theme.ColorNameSelection:
		return p.Pressed
	case theme.ColorNameForeground, theme.ColorNameHyperlink:
		return p.Ink
	case theme.ColorNamePlaceHolder:
		return p.Quiet
	case theme.ColorNameDisabled:
		return p.Off
	case theme.ColorNameFocus, theme.ColorNamePrimary:
		return p.Focus
	case theme.ColorNameForegroundOnPrimary:
		return p.Ground
	case theme.ColorNameError, theme.ColorNameWarning:
		return p.Alert
	case theme.ColorNameForegroundOnError, theme.ColorNameForegroundOnWarning:
		return p.Ground
	case theme.ColorNameSuccess:
		return p.Ink
	case theme.ColorNameForegroundOnSuccess:
		return p.Ground
	case theme.ColorNameInputBorder, theme.ColorNameSeparator, theme.ColorNameScrollBar:
		return p.Edge
	case theme.ColorNameScrollBarBackground:
		return p.Surface
	}
	return color.Transparent
}

// Font is part of fyne.Theme.
func (t themed) Font(style fyne.TextStyle) fyne.Resource {
	if style.Symbol {
		return theme.DefaultTheme().Font(style)
	}
	if style.Bold {
		return t.look.strong
	}
	return t.look.plain
}

// Icon is part of fyne.Theme.
func (t themed) Icon(name fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(name) }

// Size is part of fyne.Theme.
func (t themed) Size(name fyne.ThemeSizeName) float32 {
	l := t.look
	small, large := l.Letters(l.reads, Small), l.Letters(l.reads, Large)
	switch name {
	case theme.SizeNameText, theme.SizeNameCaptionText:
		return small
	case theme.SizeNameHeadingText:
		return large
	case theme.SizeNameSubHeadingText:
		return (small + large) / 2
	case theme.SizeNameInlineIcon:
		return small * boxShare
	case theme.SizeNamePadding:
		return l.MM(paddingMM)
	case theme.SizeNameInnerPadding:
		return l.MM(innerMM)
	case theme.SizeNameScrollBar, theme.SizeNameScrollBarSmall:
		return l.MM(2)
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return l.MM(cornerMM)
	}
	return theme.DefaultTheme().Size(name)
}
