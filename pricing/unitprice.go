package pricing

// DisplayPlaces returns the digits at which money per unit is displayed:
// rounded half away from zero, as shops do, at two more than minor digits.
func DisplayPlaces(minor int) int { return minor + 2 }
