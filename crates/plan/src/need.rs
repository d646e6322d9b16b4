//! A quantity that must be there, asked for with an example of its own where that of its kind would
//! mislead: "13.8 V" is no voltage at which to cut a load out.

use finding::{Keys, Spanned};
use quantity::{Bound, Quantity};

/// Reads a quantity that must be there; `example` is what to write when it is not.
pub(crate) fn quantity_like<Q: Quantity>(
    k: &Keys,
    key: &'static str,
    bound: &Bound<Q>,
    example: &str,
) -> Option<Spanned<Q>> {
    if !k.has(key) {
        k.error(
            "missing-key",
            k.span(),
            format!("this {} does not say its “{key}”", k.what()),
            format!("add {key} = \"{example}\""),
        );
    }
    k.quantity(key, bound)
}
