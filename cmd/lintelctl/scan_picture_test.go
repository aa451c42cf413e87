package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/oned"
	"github.com/stretchr/testify/require"

	"lintel/app/words"
)

// Goal: a picture of a label comes out as one JSON object that names its item, lot
// and last day; what is no picture, or not there, is a sentence. Method: a drawn
// Code 128 in a file, the whole command, then a file of text and none.
func TestAPictureIsScannedToJSON(t *testing.T) {
	m, err := oned.NewCode128Writer().Encode("\u00f1010950600013435217271231"+"10B7", gozxing.BarcodeFormat_CODE_128, 400, 100, nil)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	path := filepath.Join(t.TempDir(), "label.png")
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o600))
	scan := func(path string) (string, error) {
		var out bytes.Buffer
		err := scanCommand(t.Context(), words.English(), []string{"-year", "2026", "-image", path}, strings.NewReader(""), &out)
		return out.String(), err
	}
	out, err := scan(path)
	require.NoError(t, err)
	var e scanEvent
	require.NoError(t, json.Unmarshal([]byte(out), &e), out)
	require.Equal(t, []string{"09506000134352", "B7", "2027-12-31", ""}, []string{e.GTIN14, e.Lot, e.Expiry, e.Error}, out)

	require.NoError(t, os.WriteFile(path, []byte("no picture"), 0o600))
	for path, id := range map[string]words.ID{path: "scan-no-picture", path + "x": "scan-file"} {
		_, err = scan(path)
		var f *fault
		require.True(t, errors.As(err, &f), "%v", err)
		require.Equal(t, id, f.id)
	}
}
