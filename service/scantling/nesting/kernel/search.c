/* The search: constructive starts, then ruin and recreate of the cut trees towards a lower cost.
 *
 * After T. Gardeyn and T. Wauters, "A goal-driven ruin and recreate heuristic for the 2D variable-sized bin packing
 * problem with guillotine constraints", EJOR 301 (2022): sheets are taken away until the cost is below the best,
 * and pieces without a place are worked back in; a step is accepted by late acceptance (E. K. Burke and Y. Bykov,
 * EJOR 258 (2017)). Everything is counted in integers, so that the same seed and work give the same answer. */
#include "nest.h"

enum { CONSTRUCTIVE_STARTS = 12, STALL = 20000, MISSING_WEIGHT = 4 };

/* One place in 256 is passed over when pieces are put back. */
static const u64 BLINK = (u64)1 << 24;

static i64 solution_key(const Search *s) { return s->missing * MISSING_WEIGHT - s->value; }

static void reset_history(Search *s) {
    s->now = solution_key(s);
    for (int i = 0; i < HISTORY; i++) s->history[i] = s->now;
    s->least_key = s->now;
    s->stall = 0;
}

static i32 random_slot(Search *s) {
    i32 slot;
    do slot = draw_below(s, s->sheet_slots);
    while (s->sheet[slot].stock == NONE);
    return slot;
}

/* Scaled area of the pieces on a sheet is its size less its free room; the tree is walked to count it. */
static i64 filled(Search *s, i32 slot) {
    i64 area = 0;
    i32 depth = 0;
    s->stack[depth++] = s->sheet[slot].root;
    while (depth) {
        Node *n = &s->node[s->stack[--depth]];
        if (n->kind != NONE) area += s->p.area[n->kind];
        for (i32 c = n->first; c != NONE; c = s->node[c].next) s->stack[depth++] = c;
        s->work++;
    }
    return area;
}

/* Take sheets away, the emptier of a few drawn, until another solution would be cheaper than the best. */
static void lower_cost(Search *s) {
    while (s->cost >= s->best_cost && s->sheets_open) {
        i32 chosen = random_slot(s);
        i64 least = filled(s, chosen);
        for (int i = 0; i < 2; i++) {
            i32 slot = random_slot(s);
            i64 area = filled(s, slot);
            if (area < least) {
                least = area;
                chosen = slot;
            }
        }
        close_sheet(s, chosen);
    }
}

static i32 random_node(Search *s) {
    for (int i = 0; i < 64; i++) {
        i32 index = draw_below(s, s->high);
        if (s->node[index].live == 1 && s->node[index].parent != NONE) return index;
    }
    return NONE;
}

/* Collect the nodes of one sheet, root excluded. */
static i32 collect_nodes(Search *s, i32 slot) {
    i32 count = 0, next = 0;
    s->stack[count++] = s->sheet[slot].root;
    while (next < count) {
        for (i32 c = s->node[s->stack[next]].first; c != NONE; c = s->node[c].next) s->stack[count++] = c;
        next++;
    }
    s->work += count >> 1;
    return count;
}

/* Take several nodes out of one sheet. */
static void ruin_sheet(Search *s, i32 slot, i32 times) {
    while (times-- && s->sheet[slot].stock != NONE) {
        i32 count = collect_nodes(s, slot);
        if (count < 2) return;
        remove_node(s, s->stack[1 + draw_below(s, count - 1)]);
    }
}

/* Three ways to ruin, by chance: a few nodes anywhere, a few nodes of a few sheets, whole sheets. */
static void ruin(Search *s) {
    i32 how = draw_below(s, 16);
    if (how < 3 || s->sheets_open < 2) {
        i32 times = 1;
        while (times < 12 && draw_below(s, 4)) times++;
        while (times-- && s->sheets_open) {
            i32 index = random_node(s);
            if (index != NONE) remove_node(s, index);
        }
    } else if (how < 13) {
        i32 sheets = 1 + draw_below(s, 3);
        while (sheets-- && s->sheets_open) ruin_sheet(s, random_slot(s), 1 + draw_below(s, 4));
    } else {
        i32 sheets = 1 + draw_below(s, 2);
        while (sheets-- && s->sheets_open) close_sheet(s, random_slot(s));
    }
}

static void step(Search *s) {
    begin_step(s);
    i64 limit = s->best_missing ? INT64_MAX / 4 : s->best_cost - !s->polish;
    ruin(s);
    int rule = draw_below(s, 10);
    if (s->p.valued && rule >= 7) rule = 10;
    recreate(s, rule, limit, BLINK, draw_below(s, 16) < 14);
    i64 key = solution_key(s);
    i32 at = s->tick++ % HISTORY;
    if (key > s->now && key > s->history[at]) {
        undo_step(s);
    } else {
        keep_step(s);
        s->now = key;
    }
    if (s->now < s->history[at]) s->history[at] = s->now;
    s->stall++;
    if (s->now < s->least_key) {
        s->least_key = s->now;
        s->stall = 0;
    }
}

/* Start again below the best: load it, take sheets away. */
void descend(Search *s) {
    load_best(s);
    if (!s->best_missing) {
        begin_step(s);
        lower_cost(s);
        if (draw_below(s, 2)) { /* every other time further away, so that the search does not circle */
            i32 more = draw_below(s, 1 + s->sheets_open / 2);
            while (more-- > 0 && s->sheets_open > 1) close_sheet(s, random_slot(s));
        }
        keep_step(s);
    }
    reset_history(s);
}

static void start(Search *s) {
    clear_solution(s);
    begin_step(s);
    int rule = s->started < 6 ? s->started : s->p.valued ? 10 : 6;
    recreate(s, rule, INT64_MAX / 4, s->started < 6 ? 0 : BLINK * 16, 0);
    keep_step(s);
    if (!s->started || better_than_best(s)) store_best(s);
    s->started++;
}

/* Work until the count of work reaches `limit` or the target cost is met. Returns 1 where it is met. */
int run_search(Search *s, i64 limit) {
    if (!s->started) start(s);
    while (s->work < limit) {
        if (s->failed) return -1;
        if (!s->best_missing && s->best_cost <= s->p.target) return 1;
        if (s->started < CONSTRUCTIVE_STARTS) {
            start(s);
            if (s->started == CONSTRUCTIVE_STARTS) descend(s);
            continue;
        }
        step(s);
        if (s->missing < s->best_missing || (!s->missing && s->cost < s->best_cost)) {
            store_best(s);
            if (!s->missing && s->best_cost <= s->p.target) return 1;
            begin_step(s);
            lower_cost(s);
            keep_step(s);
            reset_history(s);
        } else if (s->stall > STALL) {
            descend(s);
        }
    }
    return !s->best_missing && s->best_cost <= s->p.target;
}

/* With cost and pieces settled, move pieces so that the largest remainders grow, until the work reaches `limit`. */
void polish(Search *s, i64 limit) {
    s->polish = 1;
    load_best(s);
    s->best_value = s->value;
    reset_history(s);
    while (s->work < limit && !s->failed) {
        step(s);
        if (s->missing == s->best_missing && s->cost <= s->best_cost && s->value > s->best_value) {
            store_best(s);
        } else if (s->stall > STALL) {
            load_best(s);
            reset_history(s);
        }
    }
    s->polish = 0;
    load_best(s);
}
