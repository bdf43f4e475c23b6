;;; seatwright-mode.el --- Seatwright's job and shop files  -*- lexical-binding: t; coding: utf-8 -*-

;; Made of the declarations: python -m seatwright.editor.highlighting

;;; Code:

(defvar seatwright-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?# "<" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\" "." table)
    (modify-syntax-entry ?\\ "." table)
    table)
  "A mark opens a comment; what is a text is said by a pattern, since a quote may be the inch mark.")

(defconst seatwright-mode-texts
  "\\(?:^\\|[ \t]\\)\\(\"\\(?:[^\"\n]\\|\"\"\\)*\"\\)"
  "A text in quotes.")

(defun seatwright-mode-header (limit)
  "The next header before LIMIT."
  (let ((case-fold-search t))
    (re-search-forward
     "^[ \t]+\\(?:expanding\\|tapered\\|insert\\|reamer\\|guide\\|pilot\\|valve\\|head\\|hole\\|size\\)\\(?:[ \t]+\\(?:interference-least\\|guide-hole-bottom\\|guide-hole-middle\\|interference-most\\|retainer-to-seal\\|floor-thickness\\|insert-od-least\\|guide-hole-top\\|insert-od-most\\|chamfer-angle\\|head-diameter\\|insert-height\\|old-insert-od\\|pocket-offset\\|pressure-test\\|spring-height\\|throat-offset\\|damage-depth\\|guide-bottom\\|guide-middle\\|metal-around\\|pocket-depth\\|pocket-low-a\\|pocket-low-b\\|spring-force\\|depth-least\\|id-finished\\|spring-free\\|stem-height\\|bore-least\\|bore-low-a\\|bore-low-b\\|depth-most\\|insert-was\\|pocket-tir\\|seat-width\\|bore-most\\|delivered\\|expanding\\|guide-end\\|guide-top\\|insert-od\\|recession\\|spring-at\\|diameter\\|formerly\\|guide-od\\|od-least\\|pocket-a\\|pocket-b\\|seat-tir\\|chamfer\\|counted\\|depth-a\\|depth-b\\|depth-c\\|depth-d\\|od-most\\|on-hand\\|overcut\\|tapered\\|bore-a\\|bore-b\\|cutter\\|damage\\|height\\|insert\\|length\\|margin\\|reamer\\|source\\|throat\\|tir-at\\|alloy\\|guide\\|least\\|pilot\\|stand\\|valve\\|from\\|head\\|hole\\|kind\\|leak\\|most\\|over\\|part\\|read\\|seat\\|size\\|stem\\|for\\|tir\\|id\\|od\\|to\\|x\\|y\\|x-[^ \t\n#]+\\)\\)+[ \t]*\\(?:#\\|$\\)"
     limit t)))

(defun seatwright-mode-each (pattern)
  "What finds PATTERN, its first group, and leaves what stands behind that to be found next."
  (lambda (limit)
    (let ((case-fold-search t))
      (when (re-search-forward pattern limit t)
        (goto-char (match-end 1))
        t))))

(defconst seatwright-mode-patterns
  `((,seatwright-mode-texts 1 'font-lock-string-face t)
    (seatwright-mode-header
     ("[^ \t\n#]+"
      (let ((end (match-end 0))) (beginning-of-line) end)
      nil
      (0 'font-lock-variable-name-face)))
    (,(seatwright-mode-each "^\\(interference\\|pocket-sizes\\|not-counted\\|bore-gauge\\|guide-fits\\|bore-gage\\|assembly\\|finished\\|language\\|material\\|measured\\|practice\\|replaced\\|inserts\\|machine\\|reamers\\|spacing\\|cutter\\|engine\\|guides\\|layout\\|pilots\\|valves\\|alloy\\|gauge\\|holes\\|stock\\|trial\\|gage\\|head\\|hold\\|note\\|shop\\|cut\\|job\\|use\\)\\(?:[ \t:=,#]\\|$\\)") 1 'font-lock-keyword-face)
    (,(seatwright-mode-each "^[ \t]+\\(recession-limit-follows\\|insert-uncertainty\\|master-uncertainty\\|guide-hole-bottom\\|guide-hole-middle\\|guide-wear-limit\\|least-under-seat\\|retainer-to-seal\\|ring-uncertainty\\|stem-height-from\\|depth-tolerance\\|floor-thickness\\|guide-clearance\\|guide-tightness\\|pilot-clearance\\|stem-grind-most\\|floor-clean-up\\|guide-hole-top\\|guide-to-floor\\|indicator-step\\|overcut-spread\\|corner-radius\\|cutting-force\\|head-diameter\\|insert-height\\|old-insert-od\\|pocket-offset\\|pressure-test\\|repeatability\\|retainer-room\\|sodium-filled\\|spring-height\\|surface-speed\\|throat-offset\\|damage-depth\\|deck-removed\\|floor-square\\|guide-bottom\\|guide-length\\|guide-middle\\|interference\\|least-bridge\\|metal-around\\|pocket-depth\\|pocket-low-a\\|pocket-low-b\\|spring-force\\|spring-least\\|throat-angle\\|torque-limit\\|check-every\\|guide-stand\\|least-floor\\|least-ledge\\|oversize-of\\|seat-runout\\|spring-free\\|stem-height\\|temperature\\|tip-changed\\|trial-under\\|bore-gauge\\|bore-low-a\\|bore-low-b\\|bore-round\\|bore-taper\\|crack-test\\|depth-from\\|face-angle\\|guide-bore\\|guide-hole\\|guide-room\\|heat-limit\\|hot-insert\\|insert-was\\|least-land\\|pocket-tir\\|seat-angle\\|seat-width\\|shim-limit\\|valve-lift\\|valve-tilt\\|bind-room\\|bore-gage\\|centering\\|coil-bind\\|cylinders\\|dial-step\\|expansion\\|guide-end\\|guide-fit\\|guide-top\\|guides-by\\|indicator\\|insert-od\\|machinist\\|recession\\|roughness\\|spring-at\\|stiffness\\|tip-width\\|top-angle\\|top-speed\\|centring\\|clean-up\\|customer\\|formerly\\|friction\\|guide-od\\|hot-head\\|material\\|parallel\\|pocket-a\\|pocket-b\\|received\\|seat-tir\\|standard\\|strength\\|checked\\|depth-a\\|depth-b\\|depth-c\\|depth-d\\|inserts\\|machine\\|overcut\\|poisson\\|retired\\|setback\\|bore-a\\|bore-b\\|cutter\\|damage\\|engine\\|hazard\\|insert\\|limits\\|margin\\|marked\\|master\\|pocket\\|runout\\|source\\|speeds\\|throat\\|alloy\\|chill\\|depth\\|feeds\\|gauge\\|guard\\|guide\\|level\\|paper\\|pilot\\|press\\|range\\|reach\\|shims\\|stand\\|units\\|yield\\|bore\\|dial\\|feed\\|fuel\\|gage\\|leak\\|oven\\|read\\|ring\\|seat\\|size\\|slip\\|stem\\|step\\|tips\\|due\\|tip\\|x-[a-z][^ \t\n#]*\\)\\(?:[ \t:=,#]\\|$\\)") 1 'font-lock-variable-name-face)
    (,(seatwright-mode-each "^\\(x-[a-z][^ \t\n#]*\\)") 1 'font-lock-variable-name-face)
    (,(seatwright-mode-each "\\(?:^\\|[ \t]\\)\\(\\+/-\\|±\\|-\\)\\(?:[ \t]\\|$\\)") 1 'font-lock-builtin-face)
    (,(seatwright-mode-each "\\(?:^\\|[ \t]\\)\\([-+±−–]?[Øø⌀∅]?\\(?:[0-9]\\|\\.[0-9]\\|[½⅓⅔¼¾⅛⅜⅝⅞]\\)[^ \t\n#\"]*\\)") 1 'font-lock-constant-face)
    (,(seatwright-mode-each "\\(?:^\\|[ \t]\\)\\([IE][1-9][0-9]?[A-Z]?\\)\\(?:[ \t#]\\|$\\)") 1 'font-lock-function-name-face)
    (,(seatwright-mode-each "[ \t]\\(before-measuring\\|after-measuring\\|reconditioned\\|still-to-come\\|half-letter\\|not-allowed\\|spring-seat\\|valve-train\\|fallen-out\\|beryllium\\|head-edge\\|cylinder\\|diameter\\|exponent\\|gasoline\\|hydrogen\\|integral\\|retainer\\|shoulder\\|standard\\|alcohol\\|arrives\\|carbide\\|cracked\\|exhaust\\|natural\\|propane\\|spindle\\|biogas\\|choose\\|diesel\\|intake\\|letter\\|offset\\|petrol\\|radius\\|spring\\|turned\\|below\\|burnt\\|floor\\|flush\\|guide\\|inlet\\|least\\|liner\\|loose\\|other\\|pilot\\|proud\\|reads\\|stays\\|tight\\|valve\\|bore\\|dead\\|deck\\|fail\\|hand\\|hole\\|inch\\|keep\\|lead\\|live\\|most\\|none\\|pass\\|seal\\|sunk\\|any\\|cam\\|cbn\\|gas\\|hss\\|max\\|min\\|new\\|rim\\|tir\\|yes\\|a4\\|a5\\|at\\|mm\\|no\\|to\\|to\\)\\(?:[ \t:=,#]\\|$\\)") 1 'font-lock-constant-face)
    (,(seatwright-mode-each "[ \t]\\(uin/in/F\\|µin/in/F\\|μin/in/F\\|ft/min\\|in/rev\\|mm/rev\\|months\\|um/m/C\\|um/m/K\\|µm/m/C\\|µm/m/K\\|μm/m/C\\|μm/m/K\\|ft-lb\\|in-Hg\\|in-lb\\|in/ft\\|m/min\\|month\\|inch\\|mm/m\\|thou\\|GPa\\|MPa\\|bar\\|deg\\|kPa\\|ksi\\|lbf\\|min\\|psi\\|rpm\\|Nm\\|Pa\\|in\\|kN\\|mm\\|um\\|°C\\|°F\\|µm\\|μm\\|\"\\|C\\|F\\|N\\|m\\|s\\|°\\)\\(?:[ \t#]\\|$\\)") 1 'font-lock-type-face))
  "What is coloured, the first pattern that holds at a place.")

(defun seatwright-mode-propertize (start end)
  "Between START and END, quotes of a text fence it, so that a mark in it opens no comment."
  (goto-char start)
  (while (re-search-forward seatwright-mode-texts end t)
    (let ((first (match-beginning 1)) (last (1- (match-end 1))))
      (unless (nth 4 (save-excursion (syntax-ppss first)))
        (put-text-property first (1+ first) 'syntax-table '(15))
        (put-text-property last (1+ last) 'syntax-table '(15))))))

;;;###autoload
(define-derived-mode seatwright-mode prog-mode "Seatwright"
  "Job and shop files of Seatwright."
  (setq-local comment-start "# " comment-start-skip "#+[ \t]*" indent-tabs-mode nil)
  (setq-local syntax-propertize-function #'seatwright-mode-propertize)
  (setq-local font-lock-defaults '(seatwright-mode-patterns nil t)))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.\\(?:seat\\|shop\\|engine\\)\\'" . seatwright-mode))

(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs '(seatwright-mode . ("seatwright" "editor"))))

(provide 'seatwright-mode)
;;; seatwright-mode.el ends here
