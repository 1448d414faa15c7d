/**
 * Shops and rooms as the server sends them, field by field; a test compares the two.
 *
 * @typedef {object} ProfileBody
 * @property {number} number
 * @property {string} name
 * @property {number} version
 * @property {number} versions
 * @property {number | null} undo
 * @property {number | null} redo
 * @property {string} changedAt
 * @property {boolean} putAway
 *
 * @typedef {object} ProfileVersionBody
 * @property {number} number
 * @property {number | null} parent
 * @property {string} madeAt
 * @property {string} why
 * @property {boolean} current
 *
 * @typedef {object} SettingBody
 * @property {Array<string | number>} path
 * @property {string} field what faults call it
 * @property {string} label
 * @property {string} about
 * @property {string} kind
 * @property {string} default
 * @property {boolean} needed
 * @property {string | null} written
 * @property {number} line
 * @property {string[]} choices
 * @property {string} unit of a bare number
 *
 * @typedef {object} SectionBody
 * @property {Array<string | number>} path
 * @property {string} label
 * @property {string} about
 * @property {boolean | null} owned
 * @property {boolean} entry
 * @property {boolean} own
 * @property {SettingBody[]} settings
 *
 * @typedef {object} AddingBody
 * @property {Array<string | number>} path
 * @property {string} label
 * @property {string} about
 * @property {string} named
 * @property {string[]} known
 * @property {SettingBody[]} settings
 *
 * @typedef {object} ChapterBody
 * @property {string} name
 * @property {string} title
 * @property {string} about
 * @property {SectionBody[]} sections
 * @property {AddingBody[]} adding
 *
 * @typedef {object} ShopOpen
 * @property {ProfileBody} profile
 * @property {string} text
 * @property {ChapterBody[]} chapters
 *
 * @typedef {object} RoomYearBody
 * @property {string} title
 * @property {string} about
 * @property {string} words
 * @property {string} picture
 * @property {Array<[string, string, string, string]>} months
 * @property {string[]} notes
 *
 * @typedef {object} RoomOpen
 * @property {ProfileBody} profile
 * @property {string} text
 * @property {string} kind
 * @property {Array<[string, string]>} kinds
 * @property {SectionBody[]} sections
 * @property {RoomYearBody} year
 *
 * @typedef {object} KnownRoom
 * @property {string} name
 * @property {string} title
 * @property {string} about
 * @property {number} driestPct
 * @property {number} wettestPct
 *
 * @typedef {object} KnownRooms
 * @property {KnownRoom[]} typical
 * @property {KnownRoom[]} towns
 *
 * @typedef {object} ChangedBody
 * @property {string} label
 * @property {string} then
 * @property {string} now
 *
 * @typedef {object} ChosenBody
 * @property {string} name
 * @property {string} about
 * @property {number | null} kept
 * @property {boolean} now
 * @property {boolean} own
 * @property {string | null} known
 * @property {ChangedBody[]} changes
 *
 * @typedef {object} SettingOfPiece
 * @property {number} version
 * @property {ChosenBody} shop
 * @property {ChosenBody} room
 * @property {Array<{number: number, name: string}>} shops
 * @property {Array<{number: number, name: string}>} rooms
 * @property {KnownRoom[]} typical
 * @property {string[]} towns
 *
 * Ours alone:
 *
 * @typedef {"shops" | "rooms"} Kind
 *
 * @typedef {{path: Array<string | number>, text: string}} Typed a setting as it is typed and not kept yet
 *
 * @typedef {object} DeskState
 * @property {boolean} loaded
 * @property {ProfileBody[]} kept
 * @property {any} opened the one on show, a ShopOpen or a RoomOpen; null where there is none
 * @property {Readonly<Record<string, Typed>>} typed by the name of the field
 * @property {boolean} held whether this browser keeps what is typed
 * @property {import("./types.js").FaultView[]} faults why the last thing asked for was not done
 * @property {ProfileVersionBody[]} versions
 * @property {boolean} busy
 * @property {string} said
 */
export {};
