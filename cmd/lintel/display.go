//go:build !ci

package main

import (
	"fmt"
	"os"
	"runtime"

	"github.com/go-gl/glfw/v3.3/glfw"
)

// mayOpen tries whether a window with OpenGL can be opened, and takes it away
// again. The toolkit itself would end the process where it cannot. It must be
// called from the main goroutine.
func mayOpen() (err error) {
	if runtime.GOOS == "linux" && os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" {
		return errNoDisplay
	}
	defer func() { // the binding panics at what it does not expect
		if p := recover(); p != nil {
			err = fmt.Errorf("%w: %v", errNoOpenGL, p)
		}
	}()
	if err := glfw.Init(); err != nil {
		return fmt.Errorf("%w: %v", errNoDisplay, err)
	}
	defer glfw.Terminate()
	glfw.WindowHint(glfw.Visible, glfw.False)
	hintContext()
	w, err := glfw.CreateWindow(windowMin, windowMin, "Lintel", nil, nil)
	if err != nil {
		return fmt.Errorf("%w: %v", errNoOpenGL, err)
	}
	w.Destroy()
	return nil
}
