" Colours for Seatwright's job and shop files, made of the declarations: `python -m seatwright.editor.highlighting`.
if exists("b:current_syntax")
  finish
endif
syntax case ignore
syntax sync minlines=1

syntax match seatwrightUnit /\v\C%(^|[ \t])@1<=%(uin\/in\/F|µin\/in\/F|μin\/in\/F|ft\/min|in\/rev|mm\/rev|um\/m\/C|um\/m\/K|µm\/m\/C|µm\/m\/K|μm\/m\/C|μm\/m\/K|ft-lb|in-Hg|in-lb|in\/ft|m\/min|inch|mm\/m|thou|GPa|MPa|bar|deg|kPa|ksi|lbf|min|psi|rpm|Nm|Pa|in|kN|mm|um|°C|°F|µm|μm|"|C|F|N|m|s|°)%(\_s|#|$)@=/
syntax match seatwrightTaken /\v%([ \t])@1<=%(before-measuring|after-measuring|still-to-come|half-letter|not-allowed|spring-seat|valve-train|fallen-out|beryllium|head-edge|cylinder|diameter|exponent|gasoline|hydrogen|integral|retainer|alcohol|arrives|carbide|cracked|exhaust|natural|propane|spindle|biogas|choose|diesel|intake|letter|offset|petrol|radius|spring|turned|below|burnt|floor|flush|guide|inlet|least|loose|other|pilot|proud|reads|stays|tight|valve|bore|dead|deck|fail|hand|hole|inch|keep|lead|live|most|none|pass|seal|sunk|any|cam|cbn|gas|hss|max|min|rim|tir|yes|a4|a5|mm|no|to|to)%(\_s|[:=,#]|$)@=/
syntax match seatwrightValve /\v%(^|[ \t])@1<=[IE][1-9]\d?[A-Z]?%([ \t#]|$)@=/
syntax match seatwrightFigure /\v%(^|[ \t])@1<=[-+±−–]?[Øø⌀∅]?%(\d|\.\d|[½⅓⅔¼¾⅛⅜⅝⅞])[^ \t#"]*"?/
syntax match seatwrightMark /\v%([ \t])@1<=%(\+\/-|±|-)%([ \t]|$)@=/
syntax match seatwrightField /\v^%([ \t]+%(recession-limit-follows|insert-uncertainty|master-uncertainty|guide-wear-limit|least-under-seat|ring-uncertainty|stem-height-from|depth-tolerance|guide-clearance|pilot-clearance|stem-grind-most|floor-clean-up|guide-to-floor|indicator-step|overcut-spread|corner-radius|cutting-force|head-diameter|pressure-test|repeatability|sodium-filled|spring-height|surface-speed|deck-removed|floor-square|guide-length|interference|least-bridge|metal-around|throat-angle|torque-limit|least-floor|least-ledge|oversize-of|seat-runout|stem-height|temperature|trial-under|bore-gauge|bore-round|bore-taper|crack-test|depth-from|face-angle|heat-limit|hot-insert|least-land|seat-angle|seat-width|shim-limit|valve-tilt|bore-gage|centering|dial-step|expansion|guides-by|indicator|insert-od|machinist|recession|roughness|stiffness|tip-width|top-angle|top-speed|centring|clean-up|customer|friction|hot-head|material|parallel|received|standard|strength|inserts|machine|overcut|poisson|setback|cutter|hazard|insert|margin|marked|master|pocket|runout|source|speeds|alloy|chill|depth|feeds|gauge|guard|level|paper|pilot|press|range|reach|shims|stand|units|yield|bore|dial|feed|fuel|gage|leak|oven|ring|seat|slip|stem|step|tips|due|tip|x-[a-z]\S*)|x-[a-z]\S*)%(\_s|[:=,#]|$)@=/
syntax match seatwrightOpening /\v^%(interference|not-counted|bore-gauge|bore-gage|assembly|finished|language|material|measured|practice|replaced|inserts|machine|spacing|cutter|layout|pilots|valves|alloy|gauge|holes|trial|gage|head|hold|note|shop|cut|job|use)%(\_s|[:=,#]|$)@=/
syntax match seatwrightHeader /\v^[ \t]+%(expanding|tapered|insert|pilot|valve|head|hole)[ \t]+%(%(floor-thickness|chamfer-angle|head-diameter|insert-height|old-insert-od|pocket-offset|pressure-test|spring-height|throat-offset|damage-depth|guide-bottom|guide-middle|metal-around|pocket-depth|pocket-low-a|pocket-low-b|stem-height|bore-low-a|bore-low-b|insert-was|pocket-tir|seat-width|expanding|guide-top|insert-od|recession|diameter|od-least|pocket-a|pocket-b|seat-tir|chamfer|depth-a|depth-b|depth-c|depth-d|od-most|on-hand|tapered|bore-a|bore-b|cutter|damage|height|insert|length|margin|source|throat|tir-at|alloy|least|pilot|stand|valve|from|head|hole|kind|leak|most|over|part|read|seat|stem|tir|id|od|to|x|y|x-\S+)[ \t]*)*%(#.*)?$/ contains=seatwrightColumn,seatwrightComment
syntax match seatwrightColumn /[^ \t#]\+/ contained
syntax match seatwrightText /"\%([^"]\|""\)*"/
syntax match seatwrightComment /#.*$/

highlight default link seatwrightOpening Statement
highlight default link seatwrightField Identifier
highlight default link seatwrightColumn Identifier
highlight default link seatwrightText String
highlight default link seatwrightFigure Number
highlight default link seatwrightMark Operator
highlight default link seatwrightValve Special
highlight default link seatwrightTaken Constant
highlight default link seatwrightUnit Type
highlight default link seatwrightComment Comment

let b:current_syntax = "seatwright"
