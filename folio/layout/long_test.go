//go:build long

package layout_test

import "testing"

func TestLongProperties(t *testing.T) { layoutProperties(t, 500, 100) }

func TestLongToleranceProperties(t *testing.T) { toleranceProperties(t, 50) }

func TestLongBudgetProperty(t *testing.T) { budgetProperty(t, 50) }
