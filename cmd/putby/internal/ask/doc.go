// Package ask holds a conversation: questions, one after the other, whose
// answers are checked as they are given.
//
// A dialogue is a function that asks in plain sequence and acts on what it hears:
//
//	err := ask.Hold(lines, out, intro, func(t *ask.Talk) error {
//		shop, err := t.Ask(ask.Question{Key: "shop", What: "shop", Offer: "Quirk & Thimble", Names: shops})
//		if err != nil {
//			return err // always: it may be that the person goes back
//		}
//		count, err := t.Ask(ask.Question{Key: "count", What: "how many", Check: wholeNumber})
//		...
//		return t.Agree(look, "save it")
//	})
//
// At every question "?" explains, "back" returns to the one before, and Ctrl-C
// or the end of input ends the conversation with [ErrBroken]. To go back, Hold
// calls the function again and answers from memory up to that question. So the
// function must do nothing but ask and tell, and ask the same for the same
// answers; it fills variables of its own, and what it found out is used after
// Hold has returned.
//
// Answers are kept by [Question.Key]. An answer that is given anew leaves the
// others as they are, as long as they are asked for and pass their checks;
// those with keys below its own ("line 2/price" is below "line 2") are
// forgotten. [Talk.Agree] shows what is about to happen and asks for leave: a
// "no" lets one answer be changed, by its number. [Talk.Amend] is the same after
// something was found to be wrong.
package ask
