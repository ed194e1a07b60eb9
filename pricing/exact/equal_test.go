package exact

import "testing"

// The first k of n equal parts are what SplitEqually gives.
func TestFirstOfIsTheStartOfAnEqualSplit(t *testing.T) {
	for _, text := range []string{"10", "0.000001", "-7.000005", "0", "123456789012345.000001"} {
		for n := 1; n < 9; n++ {
			whole, sum := MustMoney(text), Money{}
			parts, err := whole.SplitEqually(n, 6)
			if err != nil {
				t.Fatal(err)
			}
			for k := 0; k <= n; k++ {
				if got := whole.FirstOf(k, n, 6); !got.Equal(sum) {
					t.Errorf("%s in %d: first %d are %v, want %v", text, n, k, got, sum)
				}
				if k < n {
					sum = sum.Add(parts[k])
				}
			}
		}
	}
}
