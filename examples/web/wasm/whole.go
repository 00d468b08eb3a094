//go:build js && wasm && !planner

package main

import (
	"boardwrap.example/examples/web/answers"
	"boardwrap.example/examples/web/planner"
)

func desk() *planner.Desk { return answers.New() }
