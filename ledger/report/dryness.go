package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
)

// drynessAdvice says how much water a pack's food still holds, if that is
// known, or what would tell. Absorbers are for dry food: without them nobody
// needs to be told what is missing.
func drynessAdvice(g *ledger.Ledger, pack int, absorbers bool) Remark {
	p, food := g.Records.Packs.At(pack), &g.Foods[g.Packs[pack].Food]
	w, known := g.WeighingOf(pack)
	say := phrasingOf(&g.Settings)
	switch {
	case known && w.Moist():
		return moistCaution(g, pack, w)
	case known && w.WaterLeft().Sign() < 0:
		return Remark{Words: fmt.Sprintf("Water left: none. By its weights it holds less than its solids should: is the dry weight right, and is fresh %s %s water?", food.Title(), say.percents(w.Water))}
	case known:
		return Remark{Words: fmt.Sprintf("Water left: about %s, by its weights and the %s of fresh %s; %s is the most.", say.waterLeft(w), say.percents(w.Water), food.Title(), say.percents(ledger.MostWater))}
	case !absorbers:
		return Remark{}
	}
	lack := "its dry weight"
	if !food.Water.Given() {
		lack = "the water of fresh " + food.Title() + " in " + ledger.FoodsFile
	} else if _, ok := food.Mass(g.Packs[pack].Each); p.Dry.Given() && !ok {
		lack = "the weight of what it makes, or its run's loads weighed wet and dry"
	}
	return Remark{Words: "Whether it is dry is not known without " + lack + ". Moist food sealed without oxygen can grow botulism: break the thickest piece and look, or weigh it, before you seal it. Absorbers are for dry food only."}
}

// MoistPacks are the cautions of those packs that are not dry.
func MoistPacks(g *ledger.Ledger, packs ...string) (words []Remark) {
	for _, i := range moistOf(g, packs) {
		w, _ := g.WeighingOf(i)
		words = append(words, moistCaution(g, i, w))
	}
	return words
}

// moistOf are those of packs, by their names, that are not dry.
func moistOf(g *ledger.Ledger, names []string) []int {
	return slices.DeleteFunc(packsNamed(g, names), func(i int) bool { return !g.Moist(i) })
}

// packsNamed finds packs by their names; what is none of a pack is passed over.
func packsNamed(g *ledger.Ledger, names []string) (packs []int) {
	for _, name := range names {
		if i, ok := g.FindPack(name); ok {
			packs = append(packs, i)
		}
	}
	return packs
}

// standingMoist are the cautions of those packs that stand packed and are not dry.
func standingMoist(g *ledger.Ledger, packs ...string) (words []Remark) {
	words = MoistPacks(g, packs...)
	for n, i := range moistOf(g, packs) {
		if g.Packs[i].Left() > 0 {
			words[n].Words += fmt.Sprintf(" If it has stood sealed, do not taste it: %s.", g.Settings.Say(advice.Do(advice.Take, thrownOut(g, i)).With("reason", ledger.Spoiled.String())))
		}
	}
	return words
}

// moistPacksOf are the packs in store of a food that are not dry, of one run or,
// where that is below 0, of any.
func moistPacksOf(g *ledger.Ledger, run, food int) (ids []string) {
	for i := range g.Packs {
		p := g.Records.Packs.At(i)
		if g.Packs[i].Food == food && (run < 0 || p.Run == g.Records.Runs[run].ID) && g.Packs[i].Left() > 0 && g.Moist(i) {
			ids = append(ids, p.ID)
		}
	}
	return ids
}

// MoistAfter are the cautions of the packs that are not dry after cells of a record
// were changed that tell how dry they are.
func MoistAfter(g *ledger.Ledger, kind string, record, cells map[string]string) []Remark {
	// The columns that a [ledger.Weighing] is worked out from, in packs, foods and loads: any other
	// change says nothing new of how dry a pack is.
	weighed := func(c string) bool { _, given := cells[c]; return given }
	if !slices.ContainsFunc([]string{"dry", "wet", "each", "water", "run", "item", "density"}, weighed) {
		return nil
	}
	of := func(c string) string {
		if text, given := cells[c]; given {
			return text
		}
		return record[c]
	}
	switch kind {
	case "pack":
		return standingMoist(g, of("pack"))
	case "food":
		if food, ok := g.FindFood(of("food")); ok {
			return standingMoist(g, moistPacksOf(g, -1, food)...)
		}
	case "load":
		run, began := g.FindRun(of("run"))
		if food, ok := g.FindFood(of("item")); ok && began {
			return standingMoist(g, moistPacksOf(g, run, food)...)
		}
	}
	return nil
}

// moistCaution is for a pack that is not dry: why it must not be sealed without
// oxygen, and what to do.
func moistCaution(g *ledger.Ledger, pack int, w ledger.Weighing) Remark {
	p, say := g.Records.Packs.At(pack), phrasingOf(&g.Settings)
	words := fmt.Sprintf("Not dry. By its weights %s is still water (%s is the most). Moist food sealed without oxygen can grow botulism, which has no smell or taste: use no absorber", say.waterIn(w, "pack "+p.ID), say.percents(ledger.MostWater))
	if _, used := figures.AbsorbersIn(g, &p); used {
		words += ", and take out those that are in"
	}
	return caution(&g.Foods[g.Packs[pack].Food], words+". Dry it on and weigh again, until it loses no more weight.")
}

// openIt says what to do first with a pack that is not dry.
func openIt(g *ledger.Ledger, p *ledger.Pack) string {
	if _, used := figures.AbsorbersIn(g, p); used {
		return "open it, take the absorbers out"
	}
	return "open it"
}

// thrownOut is what to take, with --spoiled, to throw out all of a pack that is
// left.
func thrownOut(g *ledger.Ledger, pack int) string {
	return fmt.Sprintf("%v pack %s", g.Packs[pack].Left(), g.Records.Packs.At(pack).ID)
}

// RunDryness says of each food of a run that was weighed before and after how
// much water it still holds.
func RunDryness(g *ledger.Ledger, run int) (words []Remark) {
	say := phrasingOf(&g.Settings)
	for _, item := range g.Runs[run].Items {
		food := &g.Foods[item.Food]
		w, known := g.WeighingOfRun(run, item.Food)
		switch {
		case !known:
		case w.Moist():
			words = append(words, caution(food, fmt.Sprintf("Not dry. By its weights %s is still water (%s is the most). Moist food sealed without oxygen can grow botulism, which has no smell or taste: do not pack it with absorbers. Dry it on and weigh again, until it loses no more weight.", say.waterIn(w, "it"), say.percents(ledger.MostWater))))
			words = append(words, standingMoist(g, moistPacksOf(g, run, item.Food)...)...)
		case w.WaterLeft().Sign() < 0:
			words = append(words, Remark{Words: fmt.Sprintf("Water left in %s: none. By its weights it holds less than its solids should: is the dry weight right, and is it %s water when fresh?", food.Title(), say.percents(w.Water))})
		default:
			words = append(words, Remark{Words: fmt.Sprintf("Water left in %s: about %s, by its weights; %s is the most.", food.Title(), say.waterLeft(w), say.percents(ledger.MostWater))})
		}
	}
	return words
}
