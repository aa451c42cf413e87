// Package tongue gives the toolkit a locale that it can read. The toolkit asks
// for one while packages are initialized, before main, and complains on
// standard error about C and POSIX, which is what a bare system has.
//
// It works because packages that are ready are initialized in the order of
// their import paths (Go specification, "Program initialization"), and this one
// needs nothing but os: keep it so. A test of the program with a window starts
// it with LANG=C and wants to hear nothing.
package tongue

import "os"

// plain is what a bare system is given: English without a country's customs.
const plain = "en_US.UTF-8"

var _ = speak()

// speak sets LC_ALL where no language was chosen.
func speak() error {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		switch os.Getenv(name) {
		case "":
			continue
		case "C", "POSIX", "C.UTF-8", "C.utf8":
			return os.Setenv("LC_ALL", plain)
		}
		return nil
	}
	return os.Setenv("LC_ALL", plain)
}
