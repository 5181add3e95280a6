// SPDX-License-Identifier: MIT
// What the server says, as docs/api.md describes it; `View` is what the page makes of it (api/read.ts).

/** A number with its unit ("1" for pure numbers) and as it is printed. */
export interface Quantity {
    value: number;
    unit: string;
    text?: string;
}

export type Status = 'pass' | 'tight' | 'fail' | 'refer';
export type Path = (string | number)[];
export type Json = string | number | boolean | null | Json[] | { [key: string]: Json };

export interface Edit {
    path: Path;
    value?: Json;
    remove?: boolean;
    append?: Json;
}

export interface JobRow {
    id: string;
    name: string;
    created: string;
    changed: string;
    revision: number;
    newest: number;
    deleted: boolean;
}

export interface Assumed {
    path: Path;
    /** Which of the entry's fields, where `path` is a list. */
    field?: string;
    value: string;
    says: string;
    safety: boolean;
    confirm?: Edit[];
}

export interface Job {
    id: string;
    name: string;
    changed: string;
    deleted: boolean;
    revision: number;
    newest: number;
    'can-undo': boolean;
    'can-redo': boolean;
    survey: { [key: string]: Json };
    assumed: Assumed[];
}

export interface Complaint {
    says: string;
    expected?: string;
    path?: Path;
    line?: number;
    column?: number;
}

export interface Tally {
    pass: number;
    tight: number;
    fail: number;
    refer: number;
}

export interface Remedy {
    says: string;
    edits: Edit[];
}

export interface CheckRow {
    id: string;
    title: string;
    service: string;
    status: Status;
    value?: string;
    limit?: string;
    sense?: string;
    margin?: number;
    says: string;
    pieces: number[];
    assumed?: boolean;
    remedies?: number;
}

export interface Given {
    symbol?: string;
    meaning: string;
    value: number | string;
    unit: string;
    text?: string;
}

export interface Step {
    says?: string;
    formula?: string;
    given?: Given[];
    result?: Given;
}

export interface Source {
    document: string;
    edition: string;
    clause: string;
    standing: string;
    says?: string;
}

export interface CheckWhole {
    id: string;
    title: string;
    service: string;
    status: Status;
    sense?: string;
    value?: Quantity;
    limit?: Quantity;
    margin?: number;
    says: string;
    derivation: Step[];
    source: Source[];
    assumptions: { path?: Path; field: string; value?: string; why: string; safety?: boolean }[];
    pieces: string[];
    remedies?: Remedy[];
}

export interface Candidate {
    layout: string;
    heater: string;
    heaters: number;
    'floor-length'?: Quantity;
    parts?: Quantity;
    total?: Quantity;
    tally?: Tally;
    refused?: string;
    chosen: boolean;
}

export interface Shortfall {
    arrangement: string;
    what: string;
    need?: Quantity;
    have?: Quantity;
    remedy?: string;
}

export interface PieceRow {
    id: string;
    part: string;
    service: string;
    item: string;
    title: string;
    size: string;
    heater: number;
    bank: number;
    cut: string | null;
}

/** What many pieces share: each once, and by piece which of them (-1: none). */
export interface ByPiece<T> {
    list: T[];
    of: number[];
}
/** What flows, and the pressures at both ends. */
export type State = [flow: string | null, from: string, to: string];

export interface Method {
    id: string;
    title: string;
    peak?: Quantity;
    probable?: Quantity;
    possible?: Quantity;
    governs: boolean;
    says: string;
}

export interface Demand {
    peak: Quantity;
    governing: string;
    methods: Method[];
    day?: { hours: number[]; unit: string; busiest: number; total: Quantity; says: string };
    risk: { heaters: number; chance: number; flow?: Quantity; 'short-a-year'?: Quantity }[];
}

export interface Bank {
    number: number;
    wall: number | null;
    box: number[];
    heaters: number[];
}

export interface Layout {
    id: string;
    heater: string;
    title: string;
    heaters: number;
    needed: number;
    spare: number;
    arrangement: string;
    says: string;
    'floor-length'?: Quantity;
    'floor-area'?: Quantity;
    banks: Bank[];
    'working-space': number[][];
}

export interface Wall {
    number: number;
    build: string;
    outside: boolean;
    rated: boolean;
}

export interface RoomView {
    plan: number[][];
    ceiling: number;
    /** of a sloping ceiling over the plan's corners; `ceiling` is the greatest */
    heights?: number[];
    walls: Wall[];
    doors: { wall: number; offset: number; width: number; height: number; 'swings-in': boolean; 'hinge-far': boolean }[];
    obstacles: { name: string; box: number[] }[];
    connections: { name: string; at: number[]; facing: number[]; size?: string; assumed: boolean }[];
}

export interface Capacity {
    says: string;
    flow?: Quantity;
    'flow-firm'?: Quantity;
    options: { heater: string; title: string; installed: number; price?: Quantity; refused?: string }[];
}

export interface Price {
    parts: Quantity;
    labour: Quantity;
    markup: Quantity;
    total: Quantity;
    hours: number;
    'mass-dry'?: Quantity;
    'mass-full'?: Quantity;
}

export interface Geometry {
    boxes: number[];
    rods: number[];
}

export interface View {
    revision: number;
    settled: boolean;
    layout: Layout | null;
    shortfalls: Shortfall[];
    capacity: Capacity | null;
    demand: Demand | null;
    tally: Tally;
    price: Price | null;
    checks: CheckRow[];
    candidates: Candidate[];
    pieces: PieceRow[];
    states: ByPiece<State>;
    /** How its size came about. */
    whys: ByPiece<string>;
    geometry: Geometry;
    room: RoomView | null;
}

export interface Tried {
    view: View;
    changed: { total?: Quantity; by?: Quantity; checks: { id: string; title: string; was: Status | null; now: Status | null }[] };
}

export interface DocumentRow {
    name: string;
    says: string;
    size?: number;
}

export interface SchemaNode {
    type?: string;
    description?: string;
    default?: Json;
    enum?: string[];
    minimum?: number;
    maximum?: number;
    pattern?: string;
    properties?: { [key: string]: SchemaNode };
    required?: string[];
    items?: SchemaNode;
    additionalProperties?: boolean | SchemaNode;
    $ref?: string;
    $defs?: { [key: string]: SchemaNode };
}

export interface Vocabulary {
    version: string;
    schema: SchemaNode;
    examples: { name: string; title: string }[];
    heaters: { key: string; title: string; input?: Quantity; width?: Quantity; height?: Quantity; depth?: Quantity; price?: Quantity }[];
    documents: DocumentRow[];
}
