//! Symmetric matrices that are empty but for nine diagonals, as a chain of beam elements makes them.

use super::element::{Matrix, Piece};
use super::mesh::{Mesh, Node};

/// A row: the number on the diagonal and the four before it, the nearest first.
pub(super) type Row = [f64; 5];

/// Assembles the matrix of a chain, three rows a node: its deflection, its slope, the bulge behind it.
///
/// A deflection that is held rigidly has no place in it: its row and column are empty but for `out` on the
/// diagonal, so that no number stands in for "very stiff". Likewise the bulge behind the last node.
pub(super) fn assembled(
    mesh: &Mesh,
    matrix: fn(&Piece) -> Matrix,
    at_node: fn(&Node) -> [f64; 2],
    out: f64,
) -> Vec<Row> {
    let nothing =
        Matrix { ww: 0.0, wt: 0.0, tt: 0.0, w_w: 0.0, w_t: 0.0, t_t: 0.0, qq: out, qw: 0.0, qt: 0.0 };
    let mut rows = Vec::with_capacity(3 * mesh.nodes.len());
    let mut pieces = mesh.pieces.iter();
    let (mut before, mut was_free) = (nothing, 1.0);
    for node in &mesh.nodes {
        let behind = pieces.next().map_or(nothing, matrix);
        let [on_deflection, on_slope] = at_node(node);
        let free = if node.is_rigid { 0.0 } else { 1.0 };
        let deflection = before.ww + behind.ww + on_deflection;
        rows.push([
            if node.is_rigid { out } else { deflection },
            free * before.qw,
            free * -before.w_t,
            free * was_free * before.w_w,
            0.0,
        ]);
        rows.push([
            before.tt + behind.tt + on_slope,
            free * (behind.wt - before.wt),
            -before.qt,
            before.t_t,
            was_free * before.w_t,
        ]);
        rows.push([behind.qq, behind.qt, free * behind.qw, 0.0, 0.0]);
        (before, was_free) = (behind, free);
    }
    rows
}

/// Splits K − σ·M into L·D·Lᵀ, row by row, into `factor` (D first, then L's four), and counts the
/// negative numbers of D.
///
/// As many as there are, so many λ of K·φ = λ·M·φ lie below σ (Sylvester's law of inertia; K. J. Bathe,
/// Finite Element Procedures, the Sturm sequence property, from memory). Without exchange of rows: where a
/// pivot comes out as nothing, it is set a last bit below.
pub(super) fn split(stiff: &[Row], mass: &[Row], shift: f64, factor: &mut Vec<Row>) -> usize {
    factor.clear();
    // Of the four rows before: D of each, L of the last three as far as they reach.
    let mut d = [1.0; 4];
    let (mut l1, mut l2, mut l3) = ([0.0; 3], [0.0; 2], 0.0);
    let mut below = 0;
    for ([k0, k1, k2, k3, k4], [m0, m1, m2, m3, m4]) in stiff.iter().zip(mass) {
        let u4 = k4 - shift * m4;
        let u3 = k3 - shift * m3 - u4 * l3;
        let u2 = k2 - shift * m2 - u4 * l2[1] - u3 * l2[0];
        let u1 = k1 - shift * m1 - u4 * l1[2] - u3 * l1[1] - u2 * l1[0];
        let [one, two, three, four] = [u1 / d[0], u2 / d[1], u3 / d[2], u4 / d[3]];
        let mut pivot = k0 - shift * m0 - u4 * four - u3 * three - u2 * two - u1 * one;
        let least = f64::EPSILON * k0;
        if pivot.abs() < least {
            pivot = -least;
        }
        below += usize::from(pivot < 0.0);
        factor.push([pivot, one, two, three, four]);
        d = [pivot, d[0], d[1], d[2]];
        (l3, l2, l1) = (l2[0], [l1[0], l1[1]], [one, two, three]);
    }
    below
}

/// Solves L·D·Lᵀ·x = b in the place of b.
pub(super) fn solve(factor: &[Row], x: &mut [f64]) {
    let mut y = [0.0; 4];
    for ([_, one, two, three, four], at) in factor.iter().zip(x.iter_mut()) {
        *at -= one * y[0] + two * y[1] + three * y[2] + four * y[3];
        y = [*at, y[0], y[1], y[2]];
    }
    // From the end, each row hands on what it takes from the four before it.
    let mut off = [0.0; 4];
    for ([pivot, one, two, three, four], at) in factor.iter().zip(x.iter_mut()).rev() {
        *at = *at / pivot - off[0];
        off = [off[1] + one * *at, off[2] + two * *at, off[3] + three * *at, four * *at];
    }
}

/// M·x, into `product`.
pub(super) fn times(matrix: &[Row], x: &[f64], product: &mut Vec<f64>) {
    product.clear();
    let mut y = [0.0; 4];
    for ([none, one, two, three, four], at) in matrix.iter().zip(x) {
        product.push(none * at + one * y[0] + two * y[1] + three * y[2] + four * y[3]);
        y = [*at, y[0], y[1], y[2]];
    }
    let mut on = [0.0; 4];
    for (([_, one, two, three, four], at), sum) in matrix.iter().zip(x).zip(product.iter_mut()).rev() {
        *sum += on[0];
        on = [on[1] + one * at, on[2] + two * at, on[3] + three * at, four * at];
    }
}

/// a·b.
pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
