package joint

import "testing"

// A defect in one of many calls reaches the caller, after all have ended.
func TestParallelRaisesPanics(t *testing.T) {
	done := make([]bool, 8)
	defer func() {
		if recover() == nil {
			t.Error("the panic of one call is lost")
		}
		for i, d := range done {
			if d == (i == 3) {
				t.Errorf("call %d ended: %v", i, d)
			}
		}
	}()
	parallel(len(done), func(i int) {
		if i == 3 {
			panic("joint: a defect")
		}
		done[i] = true
	})
}
