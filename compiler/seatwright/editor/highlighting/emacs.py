"""The same for Emacs, as a mode."""

from __future__ import annotations

import re
from collections.abc import Iterable

from seatwright.editor.highlighting.known_words import FILE_ENDS, known_words


def emacs() -> str:
    """seatwright-mode.el: colours, comments, and the server where eglot is there."""
    words = known_words()
    space, end = r"[ \t]", r"\(?:[ \t:=,#]\|$\)"
    columns = rf"\(?:{_either(words.columns)}\|x-[^ \t\n#]+\)"
    header = rf"^{space}+\(?:{_either(words.first)}\)\(?:{space}+{columns}\)+{space}*\(?:#\|$\)"
    rules = (
        (rf"^\({_either(words.opening)}\){end}", "font-lock-keyword-face"),
        (rf"^{space}+\({_either(words.fields)}\|x-[a-z][^ \t\n#]*\){end}", "font-lock-variable-name-face"),
        (r"^\(x-[a-z][^ \t\n#]*\)", "font-lock-variable-name-face"),
        (r"\(?:^\|[ \t]\)\(\+/-\|±\|-\)\(?:[ \t]\|$\)", "font-lock-builtin-face"),
        (r"\(?:^\|[ \t]\)\([-+±−–]?[Øø⌀∅]?\(?:[0-9]\|\.[0-9]\|[½⅓⅔¼¾⅛⅜⅝⅞]\)[^ \t\n#" + '"' + r"]*\)", _NUMBER),
        (r"\(?:^\|[ \t]\)\([IE][1-9][0-9]?[A-Z]?\)\(?:[ \t#]\|$\)", "font-lock-function-name-face"),
        (rf"[ \t]\({_either((*words.taken, 'to'))}\){end}", _NUMBER),
        (rf"[ \t]\({_either(words.of_units)}\)\(?:[ \t#]\|$\)", "font-lock-type-face"),
    )
    patterns = "\n".join(f"    (,(seatwright-mode-each {_quoted(rule)}) 1 '{face})" for rule, face in rules)
    ends = "\\\\|".join(FILE_ENDS)
    return _MODE.format(header=_quoted(header), patterns=patterns, ends=ends)


_NUMBER = "font-lock-constant-face"
_MODE = """\
;;; seatwright-mode.el --- Seatwright's job and shop files  -*- lexical-binding: t; coding: utf-8 -*-

;; Made of the declarations: python -m seatwright.editor.highlighting

;;; Code:

(defvar seatwright-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?# "<" table)
    (modify-syntax-entry ?\\n ">" table)
    (modify-syntax-entry ?\\" "." table)
    (modify-syntax-entry ?\\\\ "." table)
    table)
  "A mark opens a comment; what is a text is said by a pattern, since a quote may be the inch mark.")

(defconst seatwright-mode-texts
  "\\\\(?:^\\\\|[ \\t]\\\\)\\\\(\\"\\\\(?:[^\\"\\n]\\\\|\\"\\"\\\\)*\\"\\\\)"
  "A text in quotes.")

(defun seatwright-mode-header (limit)
  "The next header before LIMIT."
  (let ((case-fold-search t))
    (re-search-forward
     {header}
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
     ("[^ \\t\\n#]+"
      (let ((end (match-end 0))) (beginning-of-line) end)
      nil
      (0 'font-lock-variable-name-face)))
{patterns})
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
  (setq-local comment-start "# " comment-start-skip "#+[ \\t]*" indent-tabs-mode nil)
  (setq-local syntax-propertize-function #'seatwright-mode-propertize)
  (setq-local font-lock-defaults '(seatwright-mode-patterns nil t)))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\\\.\\\\(?:{ends}\\\\)\\\\'" . seatwright-mode))

(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs '(seatwright-mode . ("seatwright" "editor"))))

(provide 'seatwright-mode)
;;; seatwright-mode.el ends here
"""


def _either(words: Iterable[str]) -> str:
    return r"\|".join(re.sub(r"[.*+?\[\]^$\\]", lambda found: "\\" + found[0], word) for word in words)


def _quoted(pattern: str) -> str:
    """A pattern as a text of Lisp, in which blanks and ends of lines are written as there."""
    escaped = pattern.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + escaped.replace("\\\\t", "\\t").replace("\\\\n", "\\n") + '"'
