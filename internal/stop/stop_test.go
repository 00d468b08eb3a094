package stop_test

import (
	"context"
	"testing"

	"boardwrap.example/internal/stop"
)

func TestOf(t *testing.T) {
	if err := stop.Of(nil).Err(); err != nil {
		t.Errorf("nothing ends a search: %v", err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	s := stop.Of(ctx)
	if err := s.Err(); err != nil {
		t.Errorf("before it is cancelled: %v", err)
	}
	cancel()
	if err := s.Err(); err != context.Canceled {
		t.Errorf("cancelled, it says %v", err)
	}
}
