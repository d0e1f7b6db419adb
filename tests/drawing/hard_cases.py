"""Forty patterns that are hard to draw well, by name; ``sheet.py`` draws them all on one page to be looked at."""

HARD_CASES: dict[str, str] = {
    "mixed values in a beat": "hands: R>-LR L--R RL-R RR L-",
    "rests at every place": "hands: .LRL R.RL RL.L RLR. .R.. ..L. R..L ....",
    "rests in triplets and eighths": "hands: .RL R.L RL. R.. ..R .R R. .",
    "four against three": "time: 3/4\nhands: RLRL over 3 RLRL over 3\nfeet: R R R R R R",
    "three against four in one beat": "hands: RLR LRL R>LR L>RL\nfeet: RRRR R.R. R--R R-R-",
    "five against four and seven": "hands: RLRLR LRLRL R>LRLRLR L\nfeet: RLRL RL RL RL",
    "a drag into a tuplet": "hands: llR>LR rrL>RL llR>L rrL",
    "ruffs of three": "hands: rlrL lrlR> RlrlR L\ntime: 4/4",
    "twelve slots": "hands: R>LRLRLRLRLRL R>RLLRRLLRRLL",
    "twelve slots with ghosts and flams": "hands: R>(L)(R)(L)(R)(L)R>(L)(R)(L)(R)(L) lR>LRLRLRLRLRL",
    "nine, ten and eleven slots": "time: 3/4\nhands: R>LRLRLRLR L>RLRLRLRLR R>LRLRLRLRLR",
    "a triplet over two beats": "hands: R>LR over 2 L>R L>R\nfeet: R R R R",
    "groups over three and four beats": "hands: RLRLR over 4 RLRLRL over 3 R",
    "a long note over four beats": "hands: R over 4 R- over 4 L> over 4\nrepeat: 2",
    "a long drum name at the edge": "hands: R>LRL R L R L\nplace: right on open hi-hat, left on cross-stick",
    "drums that change with every note": (
        "hands: R>LR LRL RLR LRL\nplace: all on high tom then mid tom then floor tom then cowbell"
    ),
    "one hand around the whole kit": (
        "hands: RRRR RRRR R R\n"
        "place: right on open hi-hat then ride bell then cross-stick then rim shot then crash then floor tom"
    ),
    "ties over bars and beats": "hands: R L RL -R | -R L -- RL | -R---L R L R-",
    "syncopation": "hands: R>L -R> -L> -R> LR> -LR -RL> -R",
    "six eight with feet": "time: 6/8\nhands: R>LR L>RL R-L R.L\nfeet: R L\nplace: right on ride, left on snare",
    "dotted beats of two, four and five": "time: 12/8\nhands: RL RLRL RLRLR RLRLRL\ntempo: 60 to 90",
    "five eight": "time: 5/8\nhands: R L> RL R L R> L R LR L",
    "seven eight": "time: 7/8\nhands: R>L RL R> RL R> LR L\nfeet: R . R . R . .",
    "two two": "time: 2/2\nhands: R>LRL RLRLRLRL R - R>LR L",
    "sixteen below": "time: 6/16\nhands: R>LR LRL R-L RLRLRL\ntempo: 72",
    "flams beside notes of both hands": "hands: lR>BrLB BlRBrL>\nplace: right on hi-hat, left on snare",
    "both hands on two drums": (
        "hands: B>B B. B(B) BB\n"
        "place: right on ride then crash then floor tom then snare, left on high tom then hi-hat then mid "
        "tom then cross-stick"
    ),
    "ghosted drags and flams": "hands: (llR)L>(rL)R> (lR)(rrL)R>L",
    "buzzes held": "hands: Rz L>z Rz- -LzRz L>zRLR (Rz)LzR",
    "slashes on every value": "hands: R/- - L//- - | R/3 L/ R/3L/ R//L/R/3L/ | R/3LR RLR/L/ R/-L/ R/",
    "slashes under flags and beams": "hands: R/. L//. .R/ ..L/3. R>/LR/3LR//LRL .R//. R/ L",
    "hands and feet across each other": (
        "hands: R.L. .RL. R>..L> .R.L\nfeet: .R.R R..L RL.. ..RR\nplace: right on hi-hat, left on snare"
    ),
    "both feet on one drum": "hands: R>LRL RLRL\nfeet: RLRL RRLL\nplace: left foot on kick, right on hi-hat",
    "feet alone": "feet: R>L RLRL BL R",
    "open hi-hat with accents": (
        "hands: R>LR>L R>LRL R>LR R>L\n"
        "place: right accents on open hi-hat, right taps on hi-hat, left on snare\n"
        "feet: R R R R"
    ),
    "crash on its ledger line": (
        "hands: R>LRL R>-LR\n"
        "place: right accents on crash, right on ride bell, right accents on crash, left on rim shot\n"
        "feet: B L"
    ),
    "sixty-fourths": "time: 2/8\nhands: R>LRLRLRL RLR-R---\nrepeat: 4",
    "hundred-twenty-eighths": "time: 4/16\nhands: R>LRLRLRL R R-LR.R.L R/",
    "breves and wholes": "time: 4/2\nhands: R/ over 4 R over 2 L> over 2 . over 4\nloop: no",
    "a start that waits and an end that stops": "hands: ..R>L R>... L>R>(L)R L\nloop: no\nrepeat: 3",
}
