//go:build js && wasm

// Wasm is the library as a WebAssembly program: it hands the questions of package
// answers to the JavaScript that started it, each as a function that takes and
// returns JSON text. page/boardwrap.js starts it. With the tag planner it is a
// smaller program that answers only what is asked at every change.
package main

import (
	"os"
	"runtime/debug"
	"syscall/js"
)

// main calls the global function that its first argument names with an object
// of the questions, and stays to answer them.
func main() {
	if len(os.Args) < 2 {
		return
	}
	debug.SetGCPercent(600) // memory is had for the asking, a frame has 16 ms
	asked := desk()
	all := js.Global().Get("Object").New()
	for _, name := range asked.Names() {
		all.Set(name, js.FuncOf(func(_ js.Value, args []js.Value) any {
			var texts []string
			for _, a := range args {
				texts = append(texts, a.String()) // a text for certain: boardwrap.js sees to it
			}
			return asked.Ask(name, texts...)
		}))
	}
	js.Global().Call(os.Args[1], all)
	select {}
}
