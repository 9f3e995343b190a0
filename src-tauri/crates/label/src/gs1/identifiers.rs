//! The application identifiers: code, title in our words, length, characters, checks.
//!
//! After the GS1 General Specifications and the GS1 Barcode Syntax Dictionary. Which identifiers have a
//! predefined length (and so need no separator) is the General Specifications' own closed list.

/// Which characters a value may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Set {
    /// The 82 invariant characters.
    Invariant,
    /// `# - / 0-9 A-Z`.
    PartNumber,
    /// Letters, digits, `-`, `_` and `=`.
    File64,
}

/// Which check a value carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Check {
    None,
    /// The last of the first so many digits is a mod-10 check digit.
    Digit(u8),
    /// The last two characters are a check pair.
    Pair,
}

/// Which date a value begins with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Date {
    None,
    /// `YYMMDD`, the day may be 00.
    DayOptional,
    /// `YYMMDD`.
    Day,
    /// `YYMMDDHHMM`.
    Minute,
}

/// Describes one identifier, or a run of neighbours that differ only in their last digits.
#[derive(Debug, Clone, Copy)]
pub(super) struct Identifier {
    first: u16,
    last: u16,
    pub title: &'static str,
    /// Length known from the code alone: no separator needed.
    pub predefined: bool,
    pub least: u8,
    pub most: u8,
    /// So many leading characters are digits.
    pub digits: u8,
    pub set: Set,
    pub check: Check,
    pub date: Date,
}

const fn identifier(code: u16, title: &'static str, least: u8, most: u8, digits: u8) -> Identifier {
    Identifier {
        first: code,
        last: code,
        title,
        predefined: false,
        least,
        most,
        digits,
        set: Set::Invariant,
        check: Check::None,
        date: Date::None,
    }
}

/// Exactly so many digits.
const fn n(code: u16, count: u8, title: &'static str) -> Identifier {
    identifier(code, title, count, count, count)
}

/// One to so many digits.
const fn n_to(code: u16, most: u8, title: &'static str) -> Identifier {
    identifier(code, title, 1, most, most)
}

/// One to so many characters.
const fn x(code: u16, most: u8, title: &'static str) -> Identifier {
    identifier(code, title, 1, most, 0)
}

/// So many digits, then between `least` and `most` further characters.
const fn nx(code: u16, digits: u8, least: u8, most: u8, title: &'static str) -> Identifier {
    identifier(code, title, digits + least, digits + most, digits)
}

impl Identifier {
    const fn to(mut self, last: u16) -> Self {
        self.last = last;
        self
    }

    const fn fixed(mut self) -> Self {
        self.predefined = true;
        self
    }

    const fn digit(mut self, of: u8) -> Self {
        self.check = Check::Digit(of);
        self
    }

    const fn pair(mut self) -> Self {
        self.check = Check::Pair;
        self
    }

    const fn set(mut self, set: Set) -> Self {
        self.set = set;
        self
    }

    const fn date(mut self, date: Date) -> Self {
        self.date = date;
        self
    }
}

/// Finds the identifier that a text begins with, the longest first; also says how long its code is.
pub(super) fn find(text: &str) -> Option<(&'static Identifier, usize)> {
    let mut code = 0;
    let mut codes = [0; 5];
    let mut count = 0;
    for byte in text.bytes().take(4).take_while(u8::is_ascii_digit) {
        code = code * 10 + u16::from(byte - b'0');
        count += 1;
        codes[count] = code;
    }
    (2..=count).rev().find_map(|length| {
        let list = [TWO, THREE, FOUR][length - 2];
        let place = list.partition_point(|entry| entry.last < codes[length]);
        list.get(place).filter(|entry| entry.first <= codes[length]).map(|entry| (entry, length))
    })
}

/// Finds the identifier that has exactly this code.
pub(super) fn exactly(code: &str) -> Option<&'static Identifier> {
    find(code).filter(|(_, length)| *length == code.len()).map(|(entry, _)| entry)
}

const TWO: &[Identifier] = &[
    n(0, 18, "Logistic unit (SSCC)").fixed().digit(18),
    n(1, 14, "Trade item number (GTIN)").fixed().digit(14),
    n(2, 14, "Trade item number of the contents").fixed().digit(14),
    n(3, 14, "Trade item number, made to order").fixed().digit(14),
    x(10, 20, "Lot"),
    n(11, 6, "Made on").fixed().date(Date::DayOptional),
    n(12, 6, "Payment due on").fixed().date(Date::DayOptional),
    n(13, 6, "Packed on").fixed().date(Date::DayOptional),
    n(15, 6, "Best before").fixed().date(Date::DayOptional),
    n(16, 6, "Sell by").fixed().date(Date::DayOptional),
    n(17, 6, "Expires on").fixed().date(Date::DayOptional),
    n(20, 2, "Variant").fixed(),
    x(21, 20, "Serial number"),
    x(22, 20, "Consumer product variant"),
    n_to(30, 8, "Quantity"),
    n_to(37, 8, "Quantity of the contents"),
    x(90, 30, "Agreed between partners"),
    x(91, 90, "Company internal").to(99),
];

const THREE: &[Identifier] = &[
    x(235, 28, "Third-party serial number"),
    x(240, 30, "Maker's additional identification"),
    x(241, 30, "Customer part number"),
    n_to(242, 6, "Made-to-order variant"),
    x(243, 20, "Packaging component number"),
    x(250, 30, "Secondary serial number"),
    x(251, 30, "Reference to source"),
    nx(253, 13, 0, 17, "Document type").digit(13),
    x(254, 20, "Location extension"),
    nx(255, 13, 0, 12, "Coupon number").digit(13),
    x(400, 30, "Order number"),
    x(401, 30, "Consignment number"),
    n(402, 17, "Shipment number").digit(17),
    x(403, 30, "Routing code"),
    n(410, 13, "Location").to(417).fixed().digit(13),
    x(420, 20, "Ship to postcode"),
    nx(421, 3, 1, 9, "Ship to country and postcode"),
    n(422, 3, "Country of origin"),
    nx(423, 3, 0, 12, "Countries of first processing"),
    n(424, 3, "Country of processing"),
    nx(425, 3, 0, 12, "Countries of disassembly"),
    n(426, 3, "Country of full processing"),
    x(427, 3, "Region of origin"),
    x(710, 20, "National healthcare number").to(717),
];

const FOUR: &[Identifier] = &[
    n(3100, 6, "Net measure (metric)").to(3169).fixed(),
    n(3200, 6, "Net measure").to(3299).fixed(),
    n(3300, 6, "Gross measure (metric)").to(3379).fixed(),
    n(3400, 6, "Gross measure").to(3499).fixed(),
    n(3500, 6, "Area, weight or volume").to(3579).fixed(),
    n(3600, 6, "Volume").to(3699).fixed(),
    n_to(3900, 15, "Amount").to(3909),
    nx(3910, 3, 1, 15, "Amount with currency").to(3919),
    n_to(3920, 15, "Price").to(3929),
    nx(3930, 3, 1, 15, "Price with currency").to(3939),
    n(3940, 4, "Percentage off").to(3949),
    n(3950, 6, "Price per unit of measure").to(3959),
    x(4300, 35, "Ship to company or contact").to(4301),
    x(4302, 70, "Ship to address").to(4306),
    x(4307, 2, "Ship to country"),
    x(4308, 30, "Ship to telephone"),
    n(4309, 20, "Ship to place"),
    x(4310, 35, "Return to company or contact").to(4311),
    x(4312, 70, "Return to address").to(4316),
    x(4317, 2, "Return to country"),
    x(4318, 20, "Return to postcode"),
    x(4319, 30, "Return to telephone"),
    x(4320, 35, "Service description"),
    n(4321, 1, "Delivery flag").to(4323),
    n(4324, 10, "Delivery time").to(4325),
    n(4326, 6, "Release date").date(Date::Day),
    nx(4330, 6, 0, 1, "Temperature limit").to(4333),
    n(7001, 13, "NATO stock number"),
    x(7002, 30, "Meat cut"),
    n(7003, 10, "Expires at").date(Date::Minute),
    n_to(7004, 4, "Active potency"),
    x(7005, 12, "Catch area"),
    n(7006, 6, "First frozen on").date(Date::Day),
    nx(7007, 6, 0, 6, "Harvested on").date(Date::Day),
    x(7008, 3, "Species"),
    x(7009, 10, "Fishing gear"),
    x(7010, 2, "Production method"),
    nx(7011, 6, 0, 4, "Test by").date(Date::Day),
    x(7020, 20, "Refurbishment lot"),
    x(7021, 20, "Functional status"),
    x(7022, 20, "Revision status"),
    x(7023, 30, "Asset number of an assembly"),
    nx(7030, 3, 1, 27, "Processor").to(7039),
    nx(7040, 1, 3, 3, "Issuer's code and extension"),
    x(7041, 4, "Freight unit type"),
    identifier(7230, "Certification", 3, 30, 0).to(7239),
    x(7240, 20, "Protocol"),
    n(7241, 2, "Kind of data carrier"),
    x(7242, 25, "Version control number"),
    n(7250, 8, "Date of birth"),
    n(7251, 12, "Time of birth"),
    n(7252, 1, "Sex"),
    x(7253, 40, "Family name"),
    x(7254, 40, "Given name"),
    x(7255, 10, "Name suffix"),
    x(7256, 90, "Full name"),
    x(7257, 70, "Address of a person"),
    identifier(7258, "Birth sequence", 3, 3, 0),
    x(7259, 40, "Family name of a newborn"),
    n(8001, 14, "Roll dimensions"),
    x(8002, 20, "Telephone serial number"),
    nx(8003, 14, 0, 16, "Returnable asset number").digit(14),
    x(8004, 30, "Asset number"),
    n(8005, 6, "Price per unit"),
    n(8006, 18, "Piece of a trade item").digit(14),
    x(8007, 34, "Bank account"),
    nx(8008, 8, 0, 4, "Made at").date(Date::Day),
    x(8009, 50, "Optical sensor"),
    x(8010, 30, "Component or part number").set(Set::PartNumber),
    n_to(8011, 12, "Component or part serial number"),
    x(8012, 20, "Software version"),
    x(8013, 25, "Model number").pair(),
    x(8014, 25, "Master device identifier").pair(),
    n(8017, 18, "Provider of a service").to(8018).digit(18),
    n_to(8019, 10, "Service instance"),
    x(8020, 25, "Payment slip reference"),
    n(8026, 18, "Piece of the contents").digit(14),
    x(8030, 90, "Digital signature").set(Set::File64),
    x(8110, 70, "Coupon"),
    n(8111, 4, "Loyalty points"),
    x(8112, 70, "Coupon offer"),
    x(8200, 70, "Web page of the maker"),
];
