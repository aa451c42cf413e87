package requests

import (
	"fmt"
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestEveryKindIsDrawn looks in the package comment for the number and the name
// of every kind, and for nothing that is not a kind.
func TestEveryKindIsDrawn(t *testing.T) {
	source, err := os.ReadFile("doc.go")
	require.NoError(t, err)
	drawn := regexp.MustCompile(`(?m)^//\t(01[0-9a-f]{2}) (\w+) +\[`).FindAllStringSubmatch(string(source), -1)
	require.Len(t, drawn, len(Kinds()))
	var lines []string
	for _, d := range drawn {
		lines = append(lines, strings.Join(d[1:], " "))
	}
	for kind, fresh := range Kinds() {
		require.Contains(t, lines, fmt.Sprintf("%04x %s", uint16(kind), reflect.TypeOf(fresh()).Elem().Name()))
	}
}
