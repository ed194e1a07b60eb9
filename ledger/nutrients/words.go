package nutrients

import (
	"strings"
	"sync"
	"unicode"
)

// split returns the words of a text in lower case, without diacritics: runs of
// letters and digits, with the point inside a number and the apostrophe of a
// name kept. "W/" and "WO/" become with and without.
func split(s string) []string {
	s = fold(strings.ToLower(s))
	words := make([]string, 0, 8)
	for i := 0; i < len(s); {
		from := i
		for i < len(s) && inWord(s, i) {
			i++
		}
		word := s[from:i]
		switch slash := i < len(s) && s[i] == '/'; {
		case word == "":
			i++
			continue
		case slash && slashed[word] != "":
			word = slashed[word]
		}
		words = append(words, word)
	}
	return words
}

// inWord reports whether the byte at i belongs to a word. What is not ASCII
// and was not folded does.
func inWord(s string, i int) bool {
	switch c := s[i]; {
	case isWord(c), c >= 0x80:
		return true
	case c == '.' || c == '\'':
		return i > 0 && isWord(s[i-1]) && i+1 < len(s) && isWord(s[i+1])
	}
	return false
}

// isWord reports whether an ASCII character goes on a word.
func isWord(c byte) bool { return c >= 'a' && c <= 'z' || c >= '0' && c <= '9' }

// letters are letters with marks in lower case, each group after the letter
// that it is searched as. The table itself is plain ASCII.
var letters = []string{"aàáâãäåāăą", "cçćč", "dďđ", "eèéêëēėęě", "gğ", "iìíîïī", "lł", "nñńň", "oòóôõöøōő",
	"rř", "sśšş", "tťţ", "uùúûüūůű", "yýÿ", "zźżž", "'’"}

// fold writes a text in lower case without diacritics.
func fold(s string) string {
	if !strings.ContainsFunc(s, func(r rune) bool { return r >= 0x80 }) {
		return s
	}
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		for _, group := range letters {
			if r >= 0x80 && strings.ContainsRune(group, r) {
				return rune(group[0])
			}
		}
		return r
	}, s)
}

// abbreviations are those of the short descriptions, as the release's
// documentation lists them and the table uses them, each with the words it
// stands for. Behind the bar are those that also stand for something else,
// which are searched but never written out.
const abbreviations = `allpurp all-purpose,appl apple,appls apples,applsauc applesauce,babyfd baby food,bbq barbecued,
bf beef,bev beverage,bkd baked,bld boiled,bnless boneless,bnls boneless,bns beans,brkfst breakfast,brld broiled,
brsd braised,bsd based,btld bottled,bttm bottom,bttrmlk buttermilk,carb carbonated,chick chicken,choc chocolate,
chopd chopped,chs cheese,cinn cinnamon,ckd cooked,cmdty commodity,cnd canned,cntr center,coatd coated,
cocnt coconut,comm commercial,commly commercially,conc concentrate,concd concentrated,cond condensed,
condmnt condiment,crl cereal,crm cream,crmd creamed,cttnsd cottonseed,decort decorticated,dehyd dehydrated,
dil diluted,dk dark,dom domestic,drk drink,drnd drained,drsng dressing,drumstk drumstick,dssrt dessert,
eng english,enr enriched,evap evaporated,fd food,flav flavored,flr flour,fort fortified,frsh fresh,
frstd frosted,frstng frosting,frz frozen,grds grades,grn green,grns greens,h2o water,htd heated,hvy heavy,
hydr hydrogenated,imitn imitation,immat immature,imp imported,incl including,inf infant,inst instant,
jr junior,juc juice,krnls kernels,liq liquid,ln lean,lofat low-fat,lrg large,lvnd leavened,
marshmllw marshmallow,mayo mayonnaise,mshd mashed,mxd mixed,nat natural,noncarb noncarbonated,nutr nutrients,
nz new zealand,parbld parboiled,past pasteurized,pdr powder,pln plain,pnappl pineapple,pnut peanut,pnuts peanuts,
preckd precooked,preckd precooked,prehtd preheated,prep prepared,proc processed,prot protein,prtrhs porterhouse,
pudd pudding,recon reconstituted,refr refrigerated,reg regular,rehtd reheated,replcmnt replacement,rnd round,
rst roast,rstd roasted,rtb ready-to-bake,rtc ready-to-cook,rtd ready-to-drink,rte ready-to-eat,rtf ready-to-feed,
rth ready-to-heat,rtl retail,rts ready-to-serve,rtu ready-to-use,sau sauce,scallpd scalloped,scrmbld scrambled,
shldr shoulder,shrt short,simmrd simmered,skn skin,sml small,smmr summer,sndwch sandwich,soln solution,
soybn soybean,spl special,sprd spread,std standard,stmd steamed,stwd stewed,supp supplement,swt sweet,
swtnd sweetened,swtnr sweetener,todd toddler,tstd toasted,unckd uncooked,uncrmd uncreamed,undil undiluted,
unenr unenriched,unhtd unheated,unprep unprepared,unspec unspecified,unswtnd unsweetened,var varieties,
veg vegetable,whl whole,whtnr whitener,wntr winter,yel yellow,vit vitamin,lt light|
al aluminum,art artificial,ca calcium,cal calorie,comp composite,ex extra,hi high,lo low,min minutes,
na sodium,part partially,pk pack,red reduced,sd seed,sel select,sol solids,sp species,stk steak,stk stick,
stks sticks,str strained,sub substitute,chk chicken,bn bean,grd ground,grld grilled`

// An expansion says what an abbreviation stands for.
type expansion struct {
	words []string // every word that a search may mean by it
	text  string   // what is written for it; empty where it has several meanings
}

// expansions is the list of abbreviations by the abbreviation.
var expansions = sync.OnceValue(func() map[string]expansion {
	list := map[string]expansion{}
	sure, unsure, _ := strings.Cut(abbreviations, "|")
	for pair := range strings.SplitSeq(sure, ",") {
		short, long, _ := strings.Cut(strings.TrimSpace(pair), " ")
		list[short] = expansion{split(long), long}
	}
	for pair := range strings.SplitSeq(unsure, ",") {
		short, long, _ := strings.Cut(strings.TrimSpace(pair), " ")
		list[short] = expansion{append(list[short].words, split(long)...), ""}
	}
	return list
})

// Plain returns the description in lower case with a space after each comma
// and its abbreviations written out, as far as each has one meaning:
// "corn, sweet, yellow, raw".
func (f Food) Plain() string {
	var b strings.Builder
	for rest := strings.ToLower(f.Description); rest != ""; {
		end := 0
		for end < len(rest) && isWord(rest[end]) {
			end++
		}
		word := rest[:end]
		rest = rest[end:]
		with, slash := slashed[word], strings.HasPrefix(rest, "/")
		switch text := expansions()[word].text; {
		case slash && with != "":
			b.WriteString(with + " ")
			rest = strings.TrimLeft(rest[1:], " ")
			continue
		case text != "":
			b.WriteString(text)
		default:
			b.WriteString(word)
		}
		between := strings.IndexFunc(rest, func(r rune) bool { return isWord(byte(min(r, 0x7f))) })
		if between < 0 {
			between = len(rest)
		}
		b.WriteString(spaced(rest[:between]))
		rest = rest[between:]
	}
	return strings.TrimSpace(b.String())
}

// slashed are the abbreviations that end in a slash.
var slashed = map[string]string{"w": "with", "wo": "without"}

// spaced writes the marks between two words with a space after a comma and
// with "and" for its sign.
func spaced(marks string) string {
	marks = strings.ReplaceAll(marks, ",", ", ")
	marks = strings.ReplaceAll(marks, "&", " and ")
	return strings.ReplaceAll(marks, "  ", " ")
}
