//! Prices, which only the user's own table can know: `[[price]]` names a wire or a fuse and what it costs.

use crate::{Stock, range};
use finding::{Keys, Span, nearest};
use quantity::Quantity;

/// Reads every `[[price]]` and sets it on the wire or fuse it names.
pub(crate) fn read(stock: &mut Stock, top: &Keys) {
    top.tables("price", "price", |keys| -> Option<()> {
        if let Some(id) = keys.text("conductor") {
            let price = keys.number("per_m", range::PRICE)?.value;
            let known: Vec<&str> = stock.conductors.iter().map(|c| c.id.as_str()).collect();
            let Some(at) = known.iter().position(|k| *k == id.value) else {
                tell_unknown(keys, id.span, &id.value, &known);
                return None;
            };
            stock.conductors[at].price_per_m = Some(price);
        } else if let Some(name) = keys.text("fuse") {
            let price = keys.number("each", range::PRICE)?.value;
            let amps = keys.number("amps", range::AMPS)?.value;
            let known: Vec<&str> = stock.fuses.iter().map(|f| f.name.as_str()).collect();
            let Some(at) = known.iter().position(|k| *k == name.value) else {
                tell_unknown(keys, name.span, &name.value, &known);
                return None;
            };
            match stock.fuses[at]
                .ratings
                .iter_mut()
                .find(|r| r.amps.si() == amps)
            {
                Some(rating) => rating.price = Some(price),
                None => {
                    let says = format!("a {} is not sold at {amps} A", name.value);
                    keys.error(
                        "unknown-word",
                        keys.span(),
                        says,
                        "write one of its ratings",
                    );
                }
            }
        } else {
            let mend =
                "add conductor = \"2.5 mm² thin-wall PVC\" and per_m, or fuse, amps and each";
            keys.error(
                "missing-key",
                keys.span(),
                "this price does not say what it is of",
                mend,
            );
        }
        Some(())
    });
}

fn tell_unknown(keys: &Keys, span: Span, name: &str, known: &[&str]) {
    let mend = match nearest(name, known.iter().copied()) {
        Some(near) => format!("did you mean \"{near}\"?"),
        None => "`spurline stock` lists what there is".to_owned(),
    };
    keys.error(
        "unknown-word",
        span,
        format!("there is no “{name}” in stock"),
        mend,
    );
}
