/**
 * What the page of the boards is sent, field by field as its dataclasses name them; a test compares the two.
 *
 * @typedef {import("./types.js").FindingView} FindingView
 * @typedef {import("./types.js").FaultView} FaultView
 *
 * @typedef {[number, number, number, number]} PaperBox left, top, width, height on a drawing, in mm of the paper
 *
 * @typedef {object} PlacedView
 * @property {string} name
 * @property {string} label
 * @property {string} size
 * @property {PaperBox} box
 * @property {string} held
 * @property {string} heldBy
 * @property {boolean} cut
 * @property {string[]} parts
 *
 * @typedef {object} MarkView
 * @property {string} written
 * @property {string} words
 * @property {PaperBox} box
 *
 * @typedef {object} BoardView
 * @property {string} name
 * @property {string} root
 * @property {string} about
 * @property {string} words
 * @property {string} svg
 * @property {[number, number]} paper
 * @property {PaperBox} box
 * @property {string} state
 * @property {boolean} stays
 * @property {boolean} begun
 * @property {boolean} takes
 * @property {PlacedView[]} parts
 * @property {MarkView[]} marks
 *
 * @typedef {object} LooseView
 * @property {string} name
 * @property {string} label
 * @property {string} size
 * @property {string} held
 * @property {string} heldBy
 *
 * @typedef {object} NotesView
 * @property {number} parent
 * @property {string} text
 * @property {string} name
 * @property {boolean} undo
 * @property {boolean} redo
 * @property {string} kept
 * @property {boolean} written
 * @property {string} place
 * @property {string} said
 * @property {number} run
 * @property {string} held
 *
 * @typedef {object} BoardsView
 * @property {boolean} ok
 * @property {string} title
 * @property {string} units
 * @property {boolean} bothUnits
 * @property {NotesView} notes
 * @property {boolean} rack whether one is given
 * @property {string} lead
 * @property {Array<[string, string]>} facts
 * @property {boolean} proven whether no better layout exists
 * @property {string} scale
 * @property {BoardView[]} boards
 * @property {BoardView[]} sheets
 * @property {LooseView[]} loose
 * @property {Array<[string, string]>} offcuts
 * @property {string[]} more
 * @property {FindingView[]} findings
 *
 * @typedef {object} JudgedView
 * @property {boolean} ok
 * @property {boolean} fits
 * @property {string} part
 * @property {string} board
 * @property {string} words
 * @property {string} remedy
 * @property {number | null} atMm
 * @property {number | null} upMm
 * @property {string} better
 * @property {number | null} betterAtMm
 * @property {number | null} betterUpMm
 * @property {string} drawing
 * @property {PaperBox | null} box
 *
 * @typedef {object} SearchView
 * @property {number} number
 * @property {number} seconds
 * @property {string} words
 * @property {string} beside
 * @property {boolean} better
 * @property {boolean} proven
 * @property {Array<[string, string]>} facts
 * @property {BoardView[]} boards
 * @property {LooseView[]} loose
 *
 * @typedef {object} SearchState
 * @property {boolean} on
 * @property {number} number of the search; 0 before it has begun
 * @property {number} begun when, in ms of the clock
 * @property {SearchView | null} last the newest answer
 * @property {SearchView | null} best the newest that is better than the layout shown
 * @property {string} said
 *
 * @typedef {object} TypedMark a mark as it is typed, lengths in the unit on show
 * @property {string} board
 * @property {string} x
 * @property {string} y
 * @property {string} length
 * @property {string} width
 * @property {PaperBox | null} box where it was drawn
 *
 * @typedef {object} BoardsState
 * @property {BoardsView | null} view
 * @property {FaultView[]} faults
 * @property {boolean} laying whether the rest is being laid out
 * @property {string} said
 * @property {string} picked name of the part picked
 * @property {JudgedView | null} judged where it is put
 * @property {boolean} dragging whether it is on its way there
 * @property {string} worked the drawing under which it is worked on
 * @property {string} marking the board a mark is made on
 * @property {TypedMark | null} mark
 * @property {string} unwritten notes of before that were never written to the file
 * @property {SearchState} search
 */
export {};
