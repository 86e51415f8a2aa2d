package infer

import (
	"errors"
	"fmt"
	"slices"
)

// Bonferroni returns min(1, m p) for each of m p-values, in their order.
//
// Source: Dunn (1961), J Am Stat Assoc 56:52-64.
func Bonferroni(p []float64) ([]float64, error) {
	if err := checkPs(p); err != nil {
		return nil, err
	}
	out := make([]float64, len(p))
	for i, v := range p {
		out[i] = min(1, v*float64(len(p)))
	}
	return out, nil
}

// Holm returns the step-down adjusted p-values of m p-values, in their order:
// sorted upward, the i-th is the largest so far of min(1, (m-i+1) p_i).
//
// Source: Holm (1979), Scand J Stat 6:65-70.
func Holm(p []float64) ([]float64, error) {
	if err := checkPs(p); err != nil {
		return nil, err
	}
	order := make([]int, len(p))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case p[a] < p[b]:
			return -1
		case p[a] > p[b]:
			return 1
		}
		return 0
	})
	out := make([]float64, len(p))
	most := 0.0
	for rank, i := range order {
		most = max(most, min(1, p[i]*float64(len(p)-rank)))
		out[i] = most
	}
	return out, nil
}

func checkPs(p []float64) error {
	if len(p) == 0 {
		return errors.New("no p-values to adjust")
	}
	for i, v := range p {
		if !(v >= 0 && v <= 1) {
			return fmt.Errorf("p-value %d: %v is not between 0 and 1", i+1, v)
		}
	}
	return nil
}
