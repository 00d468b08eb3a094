//go:build js && wasm && planner

package main

import "boardwrap.example/examples/web/planner"

func desk() *planner.Desk { return planner.New(planner.Pictures{}) }
