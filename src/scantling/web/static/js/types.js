/**
 * What the server sends, field by field as its dataclasses name them; a test compares the two.
 *
 * @typedef {object} ParameterView
 * @property {string} name
 * @property {string} label
 * @property {string} about
 * @property {string} dimension
 * @property {string} shown
 * @property {string} shownDefault
 * @property {string} shownLeast
 * @property {string} shownMost
 * @property {string} shownOther
 * @property {string} unit
 * @property {number} value
 * @property {number} default
 * @property {number | null} least
 * @property {number | null} most
 * @property {number} step
 *
 * @typedef {object} PartView
 * @property {string} name
 * @property {string} label
 * @property {string} like
 * @property {string} species
 * @property {Array<[string, string]>} sizes
 * @property {[number, number, number]} explodeM
 * @property {string} tone
 *
 * @typedef {object} FindingView
 * @property {string} code
 * @property {string} severity
 * @property {string} where
 * @property {string} message
 * @property {string} advice
 * @property {string} source
 * @property {string[]} parts
 * @property {Remedy[]} remedies
 *
 * @typedef {object} Remedy one change of the piece file, or of what was measured, that mends a finding
 * @property {string} words
 * @property {string[]} path
 * @property {string} text
 * @property {string} parameter the one it sets; empty where it changes something else
 * @property {string} takenBack what was measured and is taken back; empty where it changes the piece file
 * @property {string} line what to write or to take out, and where
 * @property {boolean} here whether the server can do it to a piece that is kept
 *
 * @typedef {object} ShapeView
 * @property {boolean} ok
 * @property {string} title
 * @property {string} about
 * @property {string} units
 * @property {boolean} bothUnits
 * @property {string} key
 * @property {ParameterView[]} parameters
 * @property {PartView[]} parts
 *
 * @typedef {object} PlanView
 * @property {boolean} ok
 * @property {string} title
 * @property {string} about
 * @property {string} units
 * @property {boolean} bothUnits
 * @property {string} key
 * @property {ParameterView[]} parameters
 * @property {PartView[]} parts
 * @property {Sheet[]} sheets
 * @property {FindingView[]} findings
 * @property {YearView} year
 * @property {boolean} whole
 *
 * @typedef {object} MonthView
 * @property {string} label
 * @property {string} short
 * @property {boolean} goesIn
 * @property {string} words
 * @property {string} tight
 * @property {string} room
 * @property {string} tightPart
 * @property {[number, number, number] | null} tightAtM
 * @property {boolean} binds
 *
 * @typedef {object} PartYearView
 * @property {string} name
 * @property {number} fixedM
 * @property {number[]} stretches
 *
 * @typedef {object} YearView
 * @property {MonthView[]} months
 * @property {PartYearView[]} parts
 *
 * @typedef {object} CardPart
 * @property {string} name
 * @property {string} label
 * @property {Array<[string, string, string]>} sizes name, as it is to be, and what is told beside it
 *
 * @typedef {object} StepCard
 * @property {string} key
 * @property {string} title
 * @property {string} phase
 * @property {string} handsOn
 * @property {string} wait
 * @property {number} waitMin
 * @property {number} clampedMin
 * @property {string[]} lines
 * @property {string[]} cautions
 * @property {Array<{key: string}>} needs
 * @property {CardPart[]} parts
 * @property {string} partsWords
 * @property {boolean} once
 *
 * @typedef {object} WorkView
 * @property {boolean} ok
 * @property {string} units
 * @property {boolean} bothUnits
 * @property {string} key
 * @property {number} [version] of the piece it is the work of, where that is kept
 * @property {StepCard[]} steps
 * @property {FindingView[]} findings what of the parts made no longer fits
 * @property {Array<[string, string, string]>} names sizes the piece file names: name, label, as they are
 *
 * @typedef {object} MeasureView
 * @property {boolean} ok
 * @property {string} words
 * @property {Array<[string, string]>} steps
 * @property {[number, number, number]} startM
 * @property {[number, number, number]} endM
 *
 * @typedef {object} AskedView
 * @property {string} species
 * @property {string} thickness
 * @property {string} amount
 *
 * @typedef {object} MissingView
 * @property {string} label
 * @property {string} size
 * @property {number} count
 *
 * @typedef {object} YardView
 * @property {boolean} ok
 * @property {string} units
 * @property {string} verdict
 * @property {string} reason
 * @property {string[]} gains
 * @property {string[]} giveBack
 * @property {number} coveredPct
 * @property {boolean} enough
 * @property {string} spare boards that may go back, in words
 * @property {MissingView[]} missing
 * @property {string[]} stacks
 * @property {AskedView[]} asked
 *
 * @typedef {object} FaultView
 * @property {string} code
 * @property {string} field
 * @property {string} place the field in words: the part or joint by its name, and what of it; empty where there is none
 * @property {string} message
 * @property {string} rule
 * @property {string} remedy
 * @property {string} value
 * @property {string} found the value as a maker reads it, parts named in a sentence as words
 * @property {string} file where it stands: file, line and column, counted from 1; empty and 0 where it stands in none
 * @property {number} line
 * @property {number} column
 *
 * @typedef {object} Sheet
 * @property {string} id
 * @property {string} title
 * @property {string} lead
 * @property {Block[]} blocks
 *
 * @typedef {object} Column
 * @property {string} title
 * @property {string} align
 *
 * @typedef {object} Table
 * @property {"table"} kind
 * @property {string} title
 * @property {Column[]} columns
 * @property {string[][]} rows
 * @property {string[]} tones
 * @property {string[]} groups what each row belongs to, told over the first of those that follow each other
 * @property {string[][]} parts
 * @property {string} note
 *
 * @typedef {object} Facts
 * @property {"facts"} kind
 * @property {string} title
 * @property {Array<[string, string]>} items
 *
 * @typedef {object} Words
 * @property {"words"} kind
 * @property {string} title
 * @property {string[]} lines
 * @property {boolean} numbered
 *
 * @typedef {object} Caution
 * @property {"caution"} kind
 * @property {string[]} lines
 *
 * @typedef {object} Picture
 * @property {"picture"} kind
 * @property {string} title
 * @property {string} svg
 * @property {string} words
 *
 * @typedef {Table | Facts | Words | Caution | Picture} Block
 *
 * Ours alone:
 *
 * @typedef {Readonly<Record<string, string>>} Given Parameters asked for, as written, and `units` to show them in.
 *
 * @typedef {object} State
 * @property {Given} given what is asked for now
 * @property {Given} shaped what the shape on show was made for
 * @property {ShapeView | null} shape the last shape that works
 * @property {Given} planned what the plan on show was made for
 * @property {PlanView | null} plan the last plan that works
 * @property {FaultView[]} faults why what is asked for has no plan
 * @property {boolean} busy a plan is being worked out
 * @property {string} chosen part chosen, or empty
 * @property {string[]} pointed parts pointed at
 * @property {number} apart how far pulled apart, 0..1
 * @property {boolean} seeThrough
 * @property {number} month place in the year; 0 as built
 * @property {number} larger how many times larger its movement is drawn
 * @property {{version: number, versions: number, undo: number | null, redo: number | null, said: string, refused?: Given} | null} kept of a piece that is kept; `refused`, the sizes on show when something asked for was not done, for as long as `said` says why
 * @property {"" | "across" | "lengthwise" | "level"} cut how the piece is cut open; empty for whole
 * @property {number} share where it is cut, from the left, the back or the floor, 0..1
 * @property {boolean} measuring whether taps pick edges
 * @property {ReadonlyArray<[[number, number, number], [number, number, number]]>} picked edges picked, as the piece stands whole
 * @property {MeasureView | null} measured
 * @property {import("./part-types.js").Preview | null} preview the piece with a part that is not kept
 * @property {string} from where the design asked for stands: that of a text being typed; empty for that of this document
 * @property {string} shapedFrom the same of the shape on show
 * @property {string} plannedFrom and of the plan on show
 * @property {string[]} marked parts whose entry is being written
 *
 * @typedef {object} Attached
 * @property {string} name
 * @property {string | null} text
 *
 * @typedef {object} Content
 * @property {string} piece
 * @property {Record<string, string>} given
 * @property {Attached | null} shop
 * @property {Attached | null} rack
 * @property {Attached | null} room
 * @property {Attached | null} bench
 *
 * @typedef {object} PieceBody
 * @property {number} number
 * @property {string} name
 * @property {string} state
 * @property {number} stepsDone
 * @property {string} begunAt
 * @property {string} changedAt
 * @property {number} version
 * @property {number} versions
 * @property {number | null} undo
 * @property {number | null} redo
 * @property {string} picture
 *
 * @typedef {object} PieceOpen
 * @property {PieceBody} piece
 * @property {Content} content
 *
 * @typedef {object} EntryBody
 * @property {string[]} path
 * @property {string} title
 * @property {Array<{path: string[], name: string, text: string, line: number}>} fields
 *
 * @typedef {object} EntryList
 * @property {number} version
 * @property {EntryBody[]} entries
 *
 * @typedef {object} OfferBody
 * @property {string} family
 * @property {string} first
 * @property {string} second
 * @property {string} reason
 *
 * @typedef {object} MeetingBody
 * @property {string} one
 * @property {string} other
 * @property {string} words
 * @property {OfferBody[]} offers
 * @property {string} held
 *
 * @typedef {object} MeetingList
 * @property {number} version
 * @property {MeetingBody[]} meetings
 *
 * @typedef {object} WoodBody
 * @property {string} name
 * @property {string[]} parts
 *
 * @typedef {object} WoodList
 * @property {number} version
 * @property {WoodBody[]} woods
 * @property {string[]} known
 *
 * @typedef {object} VersionBody
 * @property {number} number
 * @property {number | null} parent
 * @property {number | null} restores
 * @property {string} madeAt
 * @property {string} why
 * @property {boolean} current
 * @property {string} picture
 *
 * @typedef {object} FormBody
 * @property {string} name
 * @property {string} title
 * @property {string} about
 *
 * @typedef {Readonly<{name: string, species: string, thickness: string, length: string, width: string, price: string, defects: string, rings?: string}>} TypedBoard
 *
 * @typedef {object} ClashBody
 * @property {string} where
 * @property {number} line
 * @property {string[]} old
 * @property {string[]} theirs
 * @property {string[]} yours
 *
 * @typedef {object} EntryPlace the lines an entry of the piece file stands on, and the parts it is of
 * @property {string[]} path
 * @property {number} first
 * @property {number} last
 * @property {string[]} parts
 *
 * @typedef {object} TypedBody
 * @property {Content} content
 * @property {string} draft
 * @property {FaultView[]} errors
 * @property {EntryPlace[]} entries
 *
 * @typedef {object} WritingState
 * @property {PieceBody | null} piece
 * @property {Content | null} saved as the server has it
 * @property {Content | null} content as it is typed
 * @property {boolean} changed
 * @property {boolean} held whether this browser keeps what is typed
 * @property {string} draft name under which the server holds what is typed
 * @property {FaultView[]} faults of what is typed
 * @property {FaultView[]} refused why the last thing asked for was not done
 * @property {{current: number, merged: Content | null, theirs: Content, yours: Content, lines: ClashBody[]} | null} clash
 * @property {VersionBody[]} versions
 * @property {boolean} busy
 * @property {string} said
 * @property {EntryPlace[]} entries of what is typed, where it can be read
 * @property {number[]} fresh lines that were changed elsewhere a moment ago, from 1
 * @property {Content | null} dropped what was typed and let go of, to bring back
 *
 * @typedef {object} BenchEvent
 * @property {string} kind
 * @property {string} subject
 * @property {string} [written] what was measured, as it is typed, with its unit
 * @property {number} [figure] in its place, of what an older page has kept
 * @property {string} [unit]
 * @property {string} at
 * @property {number} [version] of the piece it was done by; the current one where it is not known
 * @property {string} key
 *
 * @typedef {object} BenchBody what stands at the bench
 * @property {Record<string, string>} done
 * @property {Record<string, {written: string, at?: string}>} measured
 * @property {Record<string, string>} running
 * @property {Record<string, number>} ranMin
 * @property {Array<{number: number, kind: string, subject: string, takesBack: number | null}>} [events] all that happened, as the server has it
 *
 * @typedef {object} BenchState
 * @property {WorkView | null} work
 * @property {BenchBody | null} bench
 * @property {FaultView[]} faults
 * @property {string} chosen key of the step looked at; empty for the next
 * @property {Array<{event: BenchEvent, faults: FaultView[]}>} refused what the server would not have, until it is seen or put right
 * @property {number} unsent events kept here and not sent yet
 * @property {boolean} held whether those outlive the page
 * @property {boolean} working whether what follows is being worked out
 * @property {string} said what was mended last, and how it is brought back
 *
 * @typedef {object} BoardBody a board of the stockroom
 * @property {number} number
 * @property {string} name
 * @property {string} species
 * @property {string} nominal
 * @property {string} size
 * @property {number} lengthMm
 * @property {number} widthMm
 * @property {number} boardFeet
 * @property {number} tallyBoardFeet
 * @property {number | null} moisturePct
 * @property {number | null} price
 * @property {string} grade
 * @property {string} note
 * @property {string} cameIn
 * @property {string} since
 * @property {string} party
 * @property {number | null} cameFrom
 * @property {string} cameFromName
 * @property {{at: string, moisturePct: number}[]} readings
 * @property {string | null} went
 * @property {string | null} goneAt
 * @property {string} wentTo
 *
 * @typedef {object} StackBody boards of one wood and thickness
 * @property {string} species
 * @property {string} nominal
 * @property {number} boards
 * @property {string} amount
 *
 * @typedef {object} StockBody
 * @property {BoardBody[]} boards
 * @property {StackBody[]} stacks
 *
 * @typedef {object} OffcutBody an offcut a layout leaves
 * @property {string} name
 * @property {number} cameFrom
 * @property {string} size
 *
 * @typedef {object} CutBody
 * @property {boolean} done
 * @property {BoardBody[]} out
 * @property {OffcutBody[]} kept
 * @property {number} missing
 * @property {BoardBody[]} before
 *
 * @typedef {object} EventBody
 * @property {number} board
 * @property {string} name
 * @property {string} kind
 * @property {number | null} figure
 * @property {string} party
 * @property {number | null} piece
 * @property {number | null} cameFrom
 *
 * @typedef {object} ActBody
 * @property {number} number
 * @property {string} at
 * @property {string} note
 * @property {number | null} takesBack
 * @property {boolean} counts
 * @property {EventBody[]} events
 *
 * @typedef {object} YardState
 * @property {YardView | null} answer the last one
 * @property {readonly TypedBoard[]} pile
 * @property {FaultView[]} faults
 * @property {TypedBoard | null} judged the board the answer is about
 * @property {boolean} against whether the advice was not followed
 * @property {boolean} held whether this browser keeps the pile
 * @property {string} replaces what the pile would take the place of as the rack, to be agreed to; empty where nothing
 * @property {boolean} busy
 *
 * @typedef {object} Pose where the eye is, round the middle of the piece
 * @property {number} aroundDeg from the front toward the right
 * @property {number} aboveDeg over the horizon
 * @property {number} near share of the distance at which the piece fits; 1 fits
 */
export {};
