//! The two declarations from which types and dictionary are made together: `record!` and `codes!`.

/// Declares a group of answers: the struct, its serde shape, its TypeScript and its dictionary rows.
///
/// Each field carries its help as a doc comment, then `#[label]` and, in this order and where they
/// apply, `#[unit]`, `#[plausible]` (soft), `#[limits]` (hard), `#[long]` and `#[always()]` (never
/// absent from an entry, so not optional in TypeScript).
/// Keys that the record does not know are kept in `unknown`.
#[macro_export]
macro_rules! record {
    (
        $(#[doc = $about:literal])*
        pub struct $name:ident {
            $(
                $(#[doc = $help:literal])*
                #[label($label:literal)]
                $(#[unit($unit:literal)])?
                $(#[plausible($low:literal, $high:literal)])?
                $(#[limits($least:literal, $most:literal)])?
                $(#[long($long:literal)])?
                $(#[always $always:tt])?
                $field:ident: $type:ty,
            )*
        }
    ) => {
        $(#[doc = $about])*
        #[derive(Debug, Clone, Default, PartialEq, ::serde::Serialize, ::serde::Deserialize, ::ts_rs::TS)]
        #[serde(default)]
        pub struct $name {
            $(
                $(#[doc = $help])*
                #[doc = concat!("(", $label, ")")]
                #[serde(skip_serializing_if = "crate::dictionary::Answer::is_blank")]
                // `any()` is false: `#[always()]` takes the question mark away.
                #[cfg_attr(all($(any $always)?), ts(optional, as = "Option<_>"))]
                pub $field: $type,
            )*
            /// Keys of an imported file that this version does not know; kept and written back.
            #[serde(flatten)]
            #[ts(skip)]
            pub unknown: ::serde_json::Map<String, ::serde_json::Value>,
        }

        impl $name {
            /// Dictionary rows, in the order in which the answers are asked.
            pub const FIELDS: &'static [$crate::dictionary::Field] = &[
                $($crate::dictionary::Field {
                    name: $crate::declare::plain(stringify!($field)),
                    label: $label,
                    help: concat!("", $($help),*).trim_ascii(),
                    unit: $crate::declare::first(&[$($unit)?]),
                    plausible: $crate::declare::first(&[$(($low, $high))?]),
                    limits: $crate::declare::first(&[$(($least, $most))?]),
                    long: $crate::declare::first::<bool>(&[$($long)?]).is_some(),
                    kind: <$type as $crate::dictionary::Answer>::KIND,
                },)*
            ];
        }

        impl $crate::dictionary::Answer for $name {
            const KIND: $crate::dictionary::Kind = $crate::dictionary::Kind::Record { fields: $name::FIELDS };
            fn is_blank(&self) -> bool {
                *self == Self::default()
            }
        }
    };
}

/// Gives the only element of a slice that a macro made from an optional attribute.
pub(crate) const fn first<T: Copy>(given: &[T]) -> Option<T> {
    if given.is_empty() { None } else { Some(given[0]) }
}

/// Declares a closed list of codes: the enum, its stored codes and the words people read.
#[macro_export]
macro_rules! codes {
    (
        $(#[doc = $about:literal])*
        pub enum $name:ident {
            $($variant:ident = $code:literal => $words:literal,)*
        }
    ) => {
        $(#[doc = $about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, ::serde::Serialize, ::serde::Deserialize, ::ts_rs::TS)]
        pub enum $name {
            $(
                #[doc = $words]
                #[serde(rename = $code)]
                $variant,
            )*
        }

        impl $name {
            /// The whole list, in the order in which it is offered.
            pub const ALL: &'static [Self] = &[$(Self::$variant),*];

            /// The stored code.
            pub const fn code(self) -> &'static str {
                match self { $(Self::$variant => $code),* }
            }

            /// The words that a person reads.
            pub const fn words(self) -> &'static str {
                match self { $(Self::$variant => $words),* }
            }
        }

        impl $crate::dictionary::Answer for $name {
            const KIND: $crate::dictionary::Kind = $crate::dictionary::Kind::Code {
                codes: &[$($crate::dictionary::Code { code: $code, words: $words }),*],
            };
            fn is_blank(&self) -> bool {
                false
            }
        }
    };
}

/// Takes the `r#` off a field name that is also a Rust keyword.
pub(crate) const fn plain(name: &'static str) -> &'static str {
    match name.as_bytes() {
        [b'r', b'#', ..] => name.split_at(2).1,
        _ => name,
    }
}
