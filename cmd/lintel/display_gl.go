//go:build !ci && !gles

package main

import "github.com/go-gl/glfw/v3.3/glfw"

// hintContext asks for what the toolkit will ask for.
func hintContext() {
	glfw.WindowHint(glfw.ContextVersionMajor, 2)
	glfw.WindowHint(glfw.ContextVersionMinor, 1)
}
