/* The tree of cuts of every open sheet, and how one step of the search is undone. */
#include "nest.h"

#include <string.h>

/* What a remainder is worth: the cube of its area, so that one large remainder beats any number of small ones. */
static i64 remainder_value(const Search *s, i64 a, i64 b) {
    if ((a < b ? a : b) < s->worth[0] || (a < b ? b : a) < s->worth[1]) return 0;
    i64 v = (a * b) >> s->p.shift;
    return (v * v >> VALUE_BITS) * v >> VALUE_BITS;
}

/* What free room is worth: the square of its area, so that one large rest beats many small ones. Room narrower than
 * the smallest piece is worth nothing. `a` lies along `axis`. */
i64 room_value(const Search *s, i64 a, i64 b, int axis) {
    if (s->polish) return remainder_value(s, a, b);
    if (a < s->p.least[axis] || b < s->p.least[1 - axis]) return 0;
    i64 v = (a * b) >> s->p.shift;
    return v * v >> VALUE_BITS;
}

static i64 rest_value(const Search *s, const Node *n) {
    return room_value(s, n->rest, n->size[1 - n->axis], n->axis);
}

static Node *touch(Search *s, i32 index) {
    Node *n = &s->node[index];
    if (s->stamp[index] != s->step) {
        s->stamp[index] = s->step;
        Undo *u = &s->undo[s->undo_count++];
        u->index = index;
        u->before = *n;
    }
    return n;
}

static i32 new_node(Search *s) {
    i32 index = s->free_count ? s->free_list[--s->free_count] : s->high++;
    s->stamp[index] = s->step;
    s->fresh[s->fresh_count++] = index;
    memset(&s->node[index], 0, sizeof(Node));
    s->node[index].live = 1;
    return index;
}

static void free_node(Search *s, i32 index) {
    touch(s, index)->live = 2;
    s->freed[s->freed_count++] = index;
}

static void set_rest(Search *s, i32 index, i32 rest) {
    Node *n = touch(s, index);
    s->value -= rest_value(s, n);
    n->rest = rest;
    s->value += rest_value(s, n);
}

/* Put a new child into a branch's rest. The child is as wide as the branch. */
i32 add_child(Search *s, i32 branch, i32 extent, i32 kind, int shape) {
    i32 index = new_node(s);
    Node *n = &s->node[index];
    Node *b = touch(s, branch);
    int axis = b->axis;
    n->size[axis] = extent;
    n->size[1 - axis] = b->size[1 - axis];
    n->axis = (int8_t)(1 - axis);
    n->depth = (int8_t)(b->depth < 100 ? b->depth + 1 : b->depth);
    n->parent = branch;
    n->first = NONE;
    n->prev = NONE;
    n->next = b->first;
    n->kind = kind;
    n->shape = (int8_t)shape;
    n->sheet = b->sheet;
    if (b->first != NONE) touch(s, b->first)->prev = index;
    b->first = index;
    set_rest(s, branch, b->rest - extent);
    if (kind == NONE) {
        n->rest = n->size[n->axis];
        s->value += rest_value(s, n);
    }
    return index;
}

/* Place a piece in a branch's rest. Option 0: as a child (one branch deeper where it is narrower than the branch).
 * Option 1: the whole rest is first split the other way. Returns the piece's node. */
i32 place(Search *s, i32 branch, int option, i32 kind, int shape) {
    int axis = s->node[branch].axis;
    const i32 *size = &s->p.shape[(kind * SHAPES + shape) * 2];
    i32 a = size[axis], b = size[1 - axis];
    i32 rest = s->node[branch].rest, cross = s->node[branch].size[1 - axis];
    i32 leaf;
    if (b == cross) {
        leaf = add_child(s, branch, a, kind, shape);
    } else if (option == 0 || a == rest) {
        leaf = add_child(s, add_child(s, branch, a, NONE, 0), b, kind, shape);
    } else {
        i32 strip = add_child(s, add_child(s, branch, rest, NONE, 0), b, NONE, 0);
        leaf = add_child(s, strip, a, kind, shape);
    }
    s->pool[kind]--;
    s->missing -= s->p.area[kind];
    return leaf;
}

i32 open_sheet(Search *s, i32 stock, int axis) {
    i32 slot = 0;
    while (s->sheet[slot].stock != NONE) slot++;
    i32 root = new_node(s);
    Node *n = &s->node[root];
    n->size[0] = s->p.stock_size[2 * stock];
    n->size[1] = s->p.stock_size[2 * stock + 1];
    n->axis = (int8_t)axis;
    n->rest = n->size[axis];
    n->parent = n->first = n->next = n->prev = NONE;
    n->kind = NONE;
    n->sheet = slot;
    s->value += rest_value(s, n);
    s->sheet[slot].stock = stock;
    s->sheet[slot].root = root;
    s->sheet[slot].mark = s->step;
    s->sheets_open++;
    s->used[stock]++;
    s->cost += s->p.stock_cost[stock];
    return slot;
}

/* Free a subtree; its pieces return to the pool. */
static void drop(Search *s, i32 top) {
    i32 depth = 0;
    s->stack[depth++] = top;
    while (depth) {
        i32 index = s->stack[--depth];
        Node *n = &s->node[index];
        if (n->kind != NONE) {
            s->pool[n->kind]++;
            s->missing += s->p.area[n->kind];
        } else {
            s->value -= rest_value(s, n);
        }
        for (i32 c = n->first; c != NONE; c = s->node[c].next) s->stack[depth++] = c;
        free_node(s, index);
        s->work++;
    }
}

void close_sheet(Search *s, i32 slot) {
    i32 stock = s->sheet[slot].stock;
    drop(s, s->sheet[slot].root);
    s->sheet[slot].stock = NONE;
    s->sheets_open--;
    s->used[stock]--;
    s->cost -= s->p.stock_cost[stock];
}

/* Move the boundary between a branch and its parent's rest by `by`, out of the rest of every child. */
static void shift(Search *s, i32 index, i32 by) {
    i32 parent = s->node[index].parent;
    int cross = 1 - s->node[index].axis;
    for (i32 c = s->node[index].first; c != NONE; c = s->node[c].next) {
        Node *d = touch(s, c);
        s->value -= rest_value(s, d);
        d->size[cross] -= by;
        d->rest -= by;
        s->value += rest_value(s, d);
    }
    Node *n = touch(s, index);
    s->value -= rest_value(s, n);
    n->size[cross] -= by;
    s->value += rest_value(s, n);
    set_rest(s, parent, s->node[parent].rest + by);
}

/* Narrow a branch to what its children need, or widen it to all of its parent's rest, where that makes the free room
 * worth more: the choice between the two ways to place a piece (see `place`), made again. */
static void retune(Search *s, i32 index) {
    i32 parent = s->node[index].parent;
    if (parent == NONE) return;
    i32 slack = s->node[parent].rest + s->node[index].size[0] + s->node[index].size[1];
    for (i32 c = s->node[index].first; c != NONE; c = s->node[c].next) {
        if (s->node[c].kind != NONE) return;
        if (s->node[c].rest < slack) slack = s->node[c].rest;
    }
    i64 before = s->value;
    if (slack > 0) {
        shift(s, index, slack);
        if (s->value >= before) return;
        shift(s, index, -slack);
    }
    i32 room = s->node[parent].rest;
    int alone = s->node[parent].first == index && s->node[index].next == NONE;
    if (room > 0 && !(alone && s->p.first_axis < 2 && s->node[parent].parent == NONE)) {
        shift(s, index, -room);
        if (s->value <= before) shift(s, index, room);
    }
}

/* Take a node out of its sheet, and every branch above it that is left with no child. */
void remove_node(Search *s, i32 index) {
    i32 parent = s->node[index].parent;
    while (parent != NONE && s->node[parent].first == index && s->node[index].next == NONE) {
        index = parent;
        parent = s->node[index].parent;
    }
    if (parent == NONE) {
        close_sheet(s, s->node[index].sheet);
        return;
    }
    s->sheet[s->node[index].sheet].mark = s->step;
    i32 prev = s->node[index].prev, next = s->node[index].next;
    if (prev != NONE) touch(s, prev)->next = next;
    else touch(s, parent)->first = next;
    if (next != NONE) touch(s, next)->prev = prev;
    i32 extent = s->node[index].size[s->node[parent].axis];
    drop(s, index);
    set_rest(s, parent, s->node[parent].rest + extent);
    retune(s, parent);
    if (s->node[parent].parent != NONE) retune(s, s->node[parent].parent);
}

void begin_step(Search *s) {
    s->step++;
    s->undo_count = s->fresh_count = s->freed_count = 0;
    memcpy(s->pool_before, s->pool, sizeof(i32) * (size_t)s->p.kinds);
    memcpy(s->used_before, s->used, sizeof(i32) * (size_t)s->p.stocks);
    memcpy(s->sheet_before, s->sheet, sizeof(Sheet) * (size_t)s->sheet_slots);
    s->sheets_open_before = s->sheets_open;
    s->cost_before = s->cost;
    s->value_before = s->value;
    s->missing_before = s->missing;
}

void keep_step(Search *s) {
    for (i32 i = 0; i < s->freed_count; i++) {
        s->node[s->freed[i]].live = 0;
        s->free_list[s->free_count++] = s->freed[i];
    }
    s->freed_count = s->fresh_count = s->undo_count = 0;
}

void undo_step(Search *s) {
    for (i32 i = 0; i < s->fresh_count; i++) {
        s->node[s->fresh[i]].live = 0;
        s->free_list[s->free_count++] = s->fresh[i];
    }
    while (s->undo_count) {
        Undo *u = &s->undo[--s->undo_count];
        s->node[u->index] = u->before;
    }
    s->freed_count = s->fresh_count = 0;
    memcpy(s->pool, s->pool_before, sizeof(i32) * (size_t)s->p.kinds);
    memcpy(s->used, s->used_before, sizeof(i32) * (size_t)s->p.stocks);
    memcpy(s->sheet, s->sheet_before, sizeof(Sheet) * (size_t)s->sheet_slots);
    s->sheets_open = s->sheets_open_before;
    s->cost = s->cost_before;
    s->value = s->value_before;
    s->missing = s->missing_before;
}

void clear_solution(Search *s) {
    i64 all = 0;
    s->high = s->free_count = 0;
    s->sheets_open = 0;
    s->undo_count = s->fresh_count = s->freed_count = 0;
    for (i32 i = 0; i < s->sheet_slots; i++) s->sheet[i].stock = NONE;
    for (i32 k = 0; k < s->p.kinds; k++) {
        s->pool[k] = s->p.demand[k];
        all += s->p.area[k] * s->p.demand[k];
    }
    memset(s->used, 0, sizeof(i32) * (size_t)s->p.stocks);
    s->cost = s->value = 0;
    s->missing = all;
}
