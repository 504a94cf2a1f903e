package compose

import "testing"

func TestPackageOfOrdinaryTower(t *testing.T) {
	if _, err := Package(inputOf(t, demoPlan)); err != nil {
		t.Fatal(err)
	}
}
