package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// A judgement says that a mutant changes nothing that anybody can see, and why.
type judgement struct {
	identity
	Reason string `json:"reason"`
}

// judgements reads the list of mutants that are judged equivalent.
func judgements(name string) ([]judgement, error) {
	text, err := os.ReadFile(name)
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var list []judgement
	if err := json.Unmarshal(text, &list); err != nil {
		return nil, fmt.Errorf("%s: %w", filepath.Base(name), err)
	}
	for _, j := range list {
		if strings.TrimSpace(j.Reason) == "" {
			return nil, fmt.Errorf("%s: no reason is given for %+v", filepath.Base(name), j.identity)
		}
	}
	return list, nil
}

// judge writes the reasons to the mutants they are about and returns the
// judgements about mutants of these packages that do not exist (any more).
func judge(list []judgement, subjects []*subject, mutants []*mutant) (stale []judgement) {
	byIdentity := map[identity]*mutant{}
	for _, m := range mutants {
		byIdentity[m.identity()] = m
	}
	for _, j := range list {
		if m := byIdentity[j.identity]; m != nil {
			m.reason = j.Reason
			continue
		}
		for _, s := range subjects {
			if s.room == j.Package {
				stale = append(stale, j)
			}
		}
	}
	return stale
}
