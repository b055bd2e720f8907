/* The best complete solution, kept as a list of numbers: each sheet is its stock, then its tree in preorder.
 *
 * A branch is (-1 - axis, extent along the parent's axis, number of children); a piece is (kind, shape). */
#include "nest.h"

#include <stdlib.h>
#include <string.h>

static void put(Search *s, i32 number) {
    if (s->best_length == s->best_capacity) {
        i32 capacity = s->best_capacity ? s->best_capacity * 2 : 1024;
        i32 *more = realloc(s->best, sizeof(i32) * (size_t)capacity);
        if (!more) {
            s->failed = 1;
            return;
        }
        s->best = more;
        s->best_capacity = capacity;
    }
    s->best[s->best_length++] = number;
}

static void put_tree(Search *s, i32 index) {
    const Node *n = &s->node[index];
    if (n->kind != NONE) {
        put(s, n->kind);
        put(s, n->shape);
        return;
    }
    i32 children = 0;
    for (i32 c = n->first; c != NONE; c = s->node[c].next) children++;
    put(s, -1 - n->axis);
    put(s, n->size[1 - n->axis]);
    put(s, children);
    for (i32 c = n->first; c != NONE; c = s->node[c].next) put_tree(s, c);
}

void store_best(Search *s) {
    s->best_length = 0;
    s->best_cost = s->cost;
    s->best_missing = s->missing;
    s->best_value = s->value;
    for (i32 i = 0; i < s->sheet_slots; i++) {
        if (s->sheet[i].stock == NONE) continue;
        put(s, s->sheet[i].stock);
        put_tree(s, s->sheet[i].root);
    }
}

static const i32 *take_children(Search *s, i32 branch, i32 children, const i32 *at) {
    while (children--) {
        int axis = s->node[branch].axis;
        if (at[0] >= 0) {
            add_child(s, branch, s->p.shape[(at[0] * SHAPES + at[1]) * 2 + axis], at[0], at[1]);
            s->pool[at[0]]--;
            s->missing -= s->p.area[at[0]];
            at += 2;
        } else {
            i32 child = add_child(s, branch, at[1], NONE, 0);
            at = take_children(s, child, at[2], at + 3);
        }
    }
    return at;
}

static void load(Search *s, const i32 *at, i32 length) {
    const i32 *end = at + length;
    clear_solution(s);
    begin_step(s);
    while (at < end) {
        i32 slot = open_sheet(s, at[0], -1 - at[1]);
        at = take_children(s, s->sheet[slot].root, at[3], at + 4);
    }
    keep_step(s);
}

/* Make the best solution the current one. */
void load_best(Search *s) { load(s, s->best, s->best_length); }

int better_than_best(const Search *s) {
    if (s->missing != s->best_missing) return s->missing < s->best_missing;
    if (s->cost != s->best_cost) return s->cost < s->best_cost;
    return s->value > s->best_value;
}

/* Take a solution from elsewhere where it is better than the best; the current one becomes the best either way. */
int take_offer(Search *s, const i32 *numbers, i32 length) {
    load(s, numbers, length);
    int taken = better_than_best(s);
    if (taken) store_best(s);
    return taken;
}
