//! A value that is known, or why not, as data.

use serde::{Serialize, Serializer};

/// The value itself where it is known, else `{"not_assessed": "why"}`: a reader of the data need not know
/// how the program keeps the two apart.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(transparent, bound = "T: Serialize")]
pub struct Known<T>(
    /// The value, or what is missing for it.
    #[serde(serialize_with = "known")]
    pub Result<T, String>,
);

/// Writes a result as [`Known`] does, for fields that stay results.
///
/// # Errors
/// The writer's own.
pub fn known<T: Serialize, S: Serializer>(
    result: &Result<T, String>,
    writer: S,
) -> Result<S::Ok, S::Error> {
    #[derive(Serialize)]
    struct Missing<'a> {
        not_assessed: &'a str,
    }
    match result {
        Ok(value) => value.serialize(writer),
        Err(why) => Missing { not_assessed: why }.serialize(writer),
    }
}
