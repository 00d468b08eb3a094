//go:build js && wasm && planner

package main

import "boardwrap.example/examples/web/answers"

func desk() *answers.Desk { return answers.Planner() }
