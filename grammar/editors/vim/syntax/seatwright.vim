" Colours for Seatwright's job and shop files, made of the declarations: `python -m seatwright.editor.highlighting`.
if exists("b:current_syntax")
  finish
endif
syntax case ignore
syntax sync minlines=1

syntax match seatwrightUnit /\v\C%(^|[ \t])@1<=%(uin\/in\/F|µin\/in\/F|μin\/in\/F|ft\/min|in\/rev|mm\/rev|months|um\/m\/C|um\/m\/K|µm\/m\/C|µm\/m\/K|μm\/m\/C|μm\/m\/K|ft-lb|in-Hg|in-lb|in\/ft|m\/min|month|inch|mm\/m|thou|GPa|MPa|bar|deg|kPa|ksi|lbf|min|psi|rpm|Nm|Pa|in|kN|mm|um|°C|°F|µm|μm|"|C|F|N|m|s|°)%(\_s|#|$)@=/
syntax match seatwrightTaken /\v%([ \t])@1<=%(before-measuring|after-measuring|reconditioned|still-to-come|half-letter|not-allowed|spring-seat|valve-train|fallen-out|beryllium|head-edge|cylinder|diameter|exponent|gasoline|hydrogen|integral|retainer|shoulder|standard|alcohol|arrives|carbide|cracked|exhaust|natural|propane|spindle|biogas|choose|diesel|intake|letter|offset|petrol|radius|spring|turned|below|burnt|floor|flush|guide|inlet|least|liner|loose|other|pilot|proud|reads|stays|tight|valve|bore|dead|deck|fail|hand|hole|inch|keep|lead|live|most|none|pass|seal|sunk|any|cam|cbn|gas|hss|max|min|new|rim|tir|yes|a4|a5|at|mm|no|to|to)%(\_s|[:=,#]|$)@=/
syntax match seatwrightValve /\v%(^|[ \t])@1<=[IE][1-9]\d?[A-Z]?%([ \t#]|$)@=/
syntax match seatwrightFigure /\v%(^|[ \t])@1<=[-+±−–]?[Øø⌀∅]?%(\d|\.\d|[½⅓⅔¼¾⅛⅜⅝⅞])[^ \t#"]*"?/
syntax match seatwrightMark /\v%([ \t])@1<=%(\+\/-|±|-)%([ \t]|$)@=/
syntax match seatwrightField /\v^%([ \t]+%(recession-limit-follows|insert-uncertainty|master-uncertainty|guide-hole-bottom|guide-hole-middle|guide-wear-limit|least-under-seat|retainer-to-seal|ring-uncertainty|stem-height-from|depth-tolerance|floor-thickness|guide-clearance|guide-tightness|pilot-clearance|stem-grind-most|floor-clean-up|guide-hole-top|guide-to-floor|indicator-step|overcut-spread|corner-radius|cutting-force|head-diameter|insert-height|old-insert-od|pocket-offset|pressure-test|repeatability|retainer-room|sodium-filled|spring-height|surface-speed|throat-offset|damage-depth|deck-removed|floor-square|guide-bottom|guide-length|guide-middle|interference|least-bridge|metal-around|pocket-depth|pocket-low-a|pocket-low-b|spring-force|spring-least|throat-angle|torque-limit|check-every|guide-stand|least-floor|least-ledge|oversize-of|seat-runout|spring-free|stem-height|temperature|tip-changed|trial-under|bore-gauge|bore-low-a|bore-low-b|bore-round|bore-taper|crack-test|depth-from|face-angle|guide-bore|guide-hole|guide-room|heat-limit|hot-insert|insert-was|least-land|pocket-tir|seat-angle|seat-width|shim-limit|valve-lift|valve-tilt|bind-room|bore-gage|centering|coil-bind|cylinders|dial-step|expansion|guide-end|guide-fit|guide-top|guides-by|indicator|insert-od|machinist|recession|roughness|spring-at|stiffness|tip-width|top-angle|top-speed|centring|clean-up|customer|formerly|friction|guide-od|hot-head|material|parallel|pocket-a|pocket-b|received|seat-tir|standard|strength|checked|depth-a|depth-b|depth-c|depth-d|inserts|machine|overcut|poisson|retired|setback|bore-a|bore-b|cutter|damage|engine|hazard|insert|limits|margin|marked|master|pocket|runout|source|speeds|throat|alloy|chill|depth|feeds|gauge|guard|guide|level|paper|pilot|press|range|reach|shims|stand|units|yield|bore|dial|feed|fuel|gage|leak|oven|read|ring|seat|size|slip|stem|step|tips|due|tip|x-[a-z]\S*)|x-[a-z]\S*)%(\_s|[:=,#]|$)@=/
syntax match seatwrightOpening /\v^%(interference|pocket-sizes|not-counted|bore-gauge|guide-fits|bore-gage|assembly|finished|language|material|measured|practice|replaced|inserts|machine|reamers|spacing|cutter|engine|guides|layout|pilots|valves|alloy|gauge|holes|stock|trial|gage|head|hold|note|shop|cut|job|use)%(\_s|[:=,#]|$)@=/
syntax match seatwrightHeader /\v^[ \t]+%(expanding|tapered|insert|reamer|guide|pilot|valve|head|hole|size)[ \t]+%(%(interference-least|guide-hole-bottom|guide-hole-middle|interference-most|retainer-to-seal|floor-thickness|insert-od-least|guide-hole-top|insert-od-most|chamfer-angle|head-diameter|insert-height|old-insert-od|pocket-offset|pressure-test|spring-height|throat-offset|damage-depth|guide-bottom|guide-middle|metal-around|pocket-depth|pocket-low-a|pocket-low-b|spring-force|depth-least|id-finished|spring-free|stem-height|bore-least|bore-low-a|bore-low-b|depth-most|insert-was|pocket-tir|seat-width|bore-most|delivered|expanding|guide-end|guide-top|insert-od|recession|spring-at|diameter|formerly|guide-od|od-least|pocket-a|pocket-b|seat-tir|chamfer|counted|depth-a|depth-b|depth-c|depth-d|od-most|on-hand|overcut|tapered|bore-a|bore-b|cutter|damage|height|insert|length|margin|reamer|source|throat|tir-at|alloy|guide|least|pilot|stand|valve|from|head|hole|kind|leak|most|over|part|read|seat|size|stem|for|tir|id|od|to|x|y|x-\S+)[ \t]*)*%(#.*)?$/ contains=seatwrightColumn,seatwrightComment
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
