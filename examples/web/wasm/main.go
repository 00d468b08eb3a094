//go:build js && wasm

// Wasm is the library as a WebAssembly program: it hands the questions of package
// answers to the JavaScript that started it, each as a function that takes and
// returns JSON text. page/boardwrap.js starts it. With the tag planner it is a
// smaller program that answers only what is asked at every change.
package main

import "syscall/js"

// main calls the global function "boardwrap" with an object of the questions, and
// stays to answer them. What it takes in stays few packages: os alone is a tenth of
// the smaller program.
func main() {
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
	js.Global().Call("boardwrap", all)
	select {}
}
