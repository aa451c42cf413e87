package optic

import (
	"bytes"
	"context"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"os/exec"
	"runtime"
	"strings"
	"time"
)

// Why a clipboard tells nothing.
var (
	ErrNoProgram = errors.New("no program that reads the clipboard is there")
	ErrEmpty     = errors.New("the clipboard holds no picture")
)

// clipboardWithin bounds how long a program may take.
const clipboardWithin = 5 * time.Second

// Clipboard reads the barcode in the picture on the clipboard, by a program of the
// system: wl-paste or xclip, osascript, or PowerShell. It blocks for
// clipboardWithin at most.
func Clipboard(ctx context.Context) (Code, error) {
	ctx, stop := context.WithTimeout(ctx, clipboardWithin)
	defer stop()
	tried := false
	for _, p := range pasters(runtime.GOOS) {
		path, err := exec.LookPath(p.args[0])
		if err != nil {
			continue
		}
		tried = true
		out, err := exec.CommandContext(ctx, path, p.args[1:]...).Output()
		if err != nil || len(out) == 0 {
			continue
		}
		b, err := p.bytes(out)
		if err != nil || len(b) == 0 {
			continue
		}
		return Read(bytes.NewReader(b))
	}
	if !tried {
		return Code{}, ErrNoProgram
	}
	return Code{}, ErrEmpty
}

// paster is a program that writes the clipboard's picture.
type paster struct {
	args  []string
	bytes func([]byte) ([]byte, error)
}

// pasters are those of a system, in the order in which they are tried.
func pasters(system string) []paster {
	same := func(b []byte) ([]byte, error) { return b, nil }
	switch system {
	case "darwin":
		return []paster{{[]string{"osascript", "-e", "the clipboard as «class PNGf»"}, fromScript}}
	case "windows":
		const script = "Add-Type -AssemblyName System.Windows.Forms,System.Drawing; $p=[Windows.Forms.Clipboard]::GetImage(); " +
			"if($p){$m=New-Object IO.MemoryStream; $p.Save($m,[Drawing.Imaging.ImageFormat]::Png); [Convert]::ToBase64String($m.ToArray())}"
		return []paster{{[]string{"powershell", "-NoProfile", "-STA", "-Command", script}, func(b []byte) ([]byte, error) {
			return base64.StdEncoding.DecodeString(strings.TrimSpace(string(b)))
		}}}
	}
	return []paster{
		{[]string{"wl-paste", "-t", "image/png"}, same},
		{[]string{"xclip", "-selection", "clipboard", "-t", "image/png", "-o"}, same},
	}
}

// fromScript reads «data PNGf89504E47…», as osascript writes bytes.
func fromScript(b []byte) ([]byte, error) {
	_, digits, found := strings.Cut(string(b), "PNGf")
	if !found {
		return nil, ErrEmpty
	}
	digits, _, _ = strings.Cut(digits, "»")
	return hex.DecodeString(strings.TrimSpace(digits))
}
