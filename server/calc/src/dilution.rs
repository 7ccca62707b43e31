//! Amounts of a solution: stock strength times stock volume is wanted strength times whole volume.
//! Volumes are taken to add up; strengths are in percent by volume as on the bottle.

/// Above this strength hydrogen peroxide is an oxidiser that burns eyes and skin (safety sheets, GHS):
/// pages show the stronger cautions from here on.
pub const STRONG_PEROXIDE_PERCENT: f64 = 8.0;

/// Why there is no such solution.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// Nothing to fill.
    NoVolume,
    /// The wanted strength is above that of the stock.
    StrongerThanStock,
    /// Stock added to water never gets as strong as the stock itself.
    NotReachable,
    /// The stock holds nothing of the agent.
    StockIsZero,
}

impl Refusal {
    /// The name that `reckon` prints as `status`.
    pub fn status(self) -> &'static str {
        match self {
            Self::NoVolume => "no_volume",
            Self::StrongerThanStock => "stronger_than_stock",
            Self::NotReachable => "not_reachable",
            Self::StockIsZero => "stock_is_zero",
        }
    }

    /// The same in plain words.
    pub fn reason(self) -> &'static str {
        match self {
            Self::NoVolume => "the volume is 0",
            Self::StrongerThanStock => "a stock cannot be diluted to more than its own strength",
            Self::NotReachable => "adding stock to water never reaches the strength of the stock",
            Self::StockIsZero => "the strength of the stock is 0",
        }
    }
}

/// What to pour together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mix {
    /// Stock, ml.
    pub stock_ml: f64,
    /// Water, ml.
    pub diluent_ml: f64,
}

impl Mix {
    /// Both together, ml.
    pub fn total_ml(&self) -> f64 {
        self.stock_ml + self.diluent_ml
    }

    /// Parts of water to one part of stock; `None` without stock.
    pub fn parts_diluent(&self) -> Option<f64> {
        (self.stock_ml > 0.0).then(|| self.diluent_ml / self.stock_ml)
    }
}

/// A finished solution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strength {
    /// In percent.
    pub percent: f64,
    /// Whole volume over stock volume; `None` without stock.
    pub factor: Option<f64>,
}

/// Stock and water for `volume_ml` of strength `wanted`. All >= 0, strengths in percent.
pub fn dilute(stock: f64, wanted: f64, volume_ml: f64) -> Result<Mix, Refusal> {
    if volume_ml <= 0.0 {
        Err(Refusal::NoVolume)
    } else if stock <= 0.0 {
        Err(Refusal::StockIsZero)
    } else if wanted > stock {
        Err(Refusal::StrongerThanStock)
    } else {
        Ok(Mix { stock_ml: volume_ml * wanted / stock, diluent_ml: volume_ml * (stock - wanted) / stock })
    }
}

/// Stock to add to `water_ml` of water already poured. All >= 0, strengths in percent.
pub fn add_stock(stock: f64, wanted: f64, water_ml: f64) -> Result<Mix, Refusal> {
    if water_ml <= 0.0 {
        Err(Refusal::NoVolume)
    } else if stock <= 0.0 {
        Err(Refusal::StockIsZero)
    } else if wanted >= stock {
        Err(Refusal::NotReachable)
    } else {
        Ok(Mix { stock_ml: water_ml * wanted / (stock - wanted), diluent_ml: water_ml })
    }
}

/// The strength of `stock_amount` in `water_amount`, both in the same measure (ml or parts), all >= 0.
pub fn strength(stock: f64, stock_amount: f64, water_amount: f64) -> Result<Strength, Refusal> {
    let whole = stock_amount + water_amount;
    if whole <= 0.0 {
        return Err(Refusal::NoVolume);
    }
    let factor = (stock_amount > 0.0).then(|| whole / stock_amount);
    Ok(Strength { percent: stock * stock_amount / whole, factor })
}

/// Milligrams of a powder of `purity` percent for `volume_ml` at `ppm` (mg to the litre).
pub fn powder_mg(ppm: f64, volume_ml: f64, purity: f64) -> Result<f64, Refusal> {
    if volume_ml <= 0.0 {
        Err(Refusal::NoVolume)
    } else if purity <= 0.0 {
        Err(Refusal::StockIsZero)
    } else {
        Ok(ppm * volume_ml / (10.0 * purity))
    }
}
