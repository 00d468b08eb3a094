package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
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

// addJudgements writes mutants into the list, with one reason for all of them,
// in the order of packages, functions and lines, and takes out those that fit
// no mutant any more.
func addJudgements(name string, list, stale []judgement, mutants []*mutant, reason string) error {
	if strings.TrimSpace(reason) == "" {
		return errors.New("why are they equivalent? Say it with -because")
	}
	list = slices.DeleteFunc(list, func(j judgement) bool { return slices.Contains(stale, j) })
	for _, m := range mutants {
		if m.reason == "" {
			list = append(list, judgement{m.identity(), reason})
		}
	}
	slices.SortStableFunc(list, func(a, b judgement) int {
		return cmp.Or(strings.Compare(a.Package, b.Package), strings.Compare(a.Function, b.Function), strings.Compare(a.Line, b.Line), strings.Compare(a.Change, b.Change), a.Nth-b.Nth)
	})
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "\t")
	if err := enc.Encode(list); err != nil {
		return err
	}
	return os.WriteFile(name, b.Bytes(), 0o666)
}
