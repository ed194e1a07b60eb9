package report

// where is a machine's name after a word such as "in", for where there are several;
// empty where there are not, or no machine is recorded.
func (r reporting) where(word string, machine int) string {
	if len(r.g.Machines) < 2 || machine < 0 {
		return ""
	}
	return " " + word + " " + r.g.Machines[machine].Title()
}

// otherMachine says which machine would save more, and how to ask about it.
func (a *answer) otherMachine() string {
	other, ok := a.Other.Get()
	if !ok {
		return ""
	}
	saves := a.sum(MoneyQuotient(other.Saving).estimatedIf(other.Guessed))
	if a.Best.Packages > 0 && saves == a.sumOf(a.Best.Saving, a.Best) {
		return "" // by less than is shown
	}
	return " " + a.g.Machines[other.Machine].Title() + " would save " + saves + ": " + a.names.of("machine") + " " + a.g.Machines[other.Machine].ID + "."
}
