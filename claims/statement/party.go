package statement

import "probity/claims"

type armIndex struct{}

type armHit struct {
	arms []*claims.Arm
	span int
}

func (s *sentence) armAt(i int) *armHit { return nil }
