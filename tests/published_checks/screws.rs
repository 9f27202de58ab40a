//! Screws: diameters, pilots, withdrawal.

use jointwise::assembly::gauge::{diameter, pilot, pilot_percent, root};
use jointwise::checks::withdrawal::{Thread, allowable_cents, board_mn, wood_mn};
use jointwise::scenario::MaterialKind;
use jointwise::units::Notation;

const INCH: f64 = 25_400.0;
const POUND_MN: f64 = 4_448.221_6;

#[test]
fn number_sizes_have_their_diameters() {
    // ASME B18.6.1 numbering, 0.060 + 0.013 N in: meadinfo.org and l-36.com/woodscrewpilot.php (read); mm from the same.
    let table = [
        (4, 112, 284),
        (6, 138, 351),
        (7, 151, 384),
        (8, 164, 417),
        (9, 177, 450),
        (10, 190, 483),
        (12, 216, 549),
        (14, 242, 615),
    ];
    for (gauge, thousandths, hundredths) in table {
        let um = diameter(gauge).get();
        assert_eq!((um as f64 / 25.4).round() as i64, thousandths, "#{gauge}");
        assert!((um - hundredths * 10).abs() <= 5, "#{gauge}: {um} um");
    }
}

#[test]
fn pilots_are_70_and_90_hundredths_of_the_core() {
    // l-36.com/woodscrewpilot.php (read): root in thousandths; soft and hard in sixty-fourths.
    for (gauge, core, soft, hard) in
        [(6, 94, 4, 5), (8, 112, 5, 6), (10, 130, 6, 7), (12, 148, 7, 8), (14, 165, 7, 9)]
    {
        assert_eq!((root(gauge).get() as f64 / 25.4).round() as i64, core, "#{gauge}");
        for (kind, printed) in [(MaterialKind::Softwood, soft), (MaterialKind::Hardwood, hard)] {
            let ours = pilot(gauge, kind, Notation::Inch64).get() as f64 * 64.0 / INCH;
            assert!((ours - f64::from(printed)).abs() < 1.01, "#{gauge} {kind:?}: {ours}");
        }
    }
    // European panel industry, mdf-info.eu "Screwing" (read): 85 to 95 % of the core.
    assert!((85..=95).contains(&pilot_percent(MaterialKind::Mdf)));
}

#[test]
fn withdrawal_from_wood_is_that_of_the_handbook() {
    // USDA Wood Handbook, ch. 8 (from memory; the form 15,700 G^2 D L is quoted by calculators), worked out in pounds.
    for (gauge, gravity, pounds) in [(8, 500, 643.7), (10, 450, 604.1)] {
        let t = Thread { diameter: diameter(gauge).get(), bites: 25_400, gravity };
        let ours = wood_mn(&t) as f64 / POUND_MN;
        assert!((ours / pounds - 1.0).abs() < 0.002, "#{gauge}: {ours}");
    }
    // 15,700 lb/in2 are 108.25 N/mm2 to 0.002 %.
    let converted = 15_700.0 * POUND_MN / 1000.0 / 645.16;
    assert!((converted / 108.25 - 1.0).abs() < 0.000_05, "{converted}");
}

#[test]
fn withdrawal_from_particleboard_is_that_of_the_handbook() {
    // USDA Wood Handbook, ch. 8: P = K sqrt(D) (L - D/3)^(5/4) G^2, K 2,655 and 2,055 (from memory), worked out at G 0.75.
    let table = [
        (8, 1.00, [563.8, 436.4]),
        (8, 1.25, [755.9, 585.1]),
        (10, 1.00, [599.9, 464.3]),
        (6, 0.75, [357.8, 276.9]),
    ];
    for (gauge, inches, pounds) in table {
        let bites = (inches * INCH) as i64;
        let t = Thread { diameter: diameter(gauge).get(), bites, gravity: 750 };
        for (edge, pounds) in [false, true].into_iter().zip(pounds) {
            let ours = board_mn(&t, edge) as f64 / POUND_MN;
            assert!((ours / pounds - 1.0).abs() < 0.002, "#{gauge} × {inches}: {ours}");
        }
    }
    // FPL survey (read): edges hold 75 to 80 % of faces.
    let t = Thread { diameter: diameter(8).get(), bites: 25_400, gravity: 750 };
    let share = board_mn(&t, true) as f64 / board_mn(&t, false) as f64;
    assert!((0.75..=0.80).contains(&share), "{share}");
    // The two sets of constants are one: K in N and mm over K in lb and in.
    for (us, metric) in [(2_655.0, 41.1), (2_055.0, 31.8)] {
        let converted = us * POUND_MN / 1000.0 / (25.4 * 25.4_f64.sqrt() * 25.4_f64.sqrt().sqrt());
        assert!((converted / metric - 1.0).abs() < 0.001, "{converted}");
    }
}

#[test]
fn allowable_withdrawal_is_printed_as_109_pounds() {
    // engineeringtoolbox.com, wood screws, allowable withdrawal (read): G 0.45, #10 gives 109 lb an inch.
    assert_eq!(allowable_cents(190, 45), 10_965);
    assert_eq!(allowable_cents(190, 45) / 100, 109);
    // What a screw withstands is 5.51 times that (worked out).
    assert!((15_700.0_f64 / 2_850.0 - 5.51).abs() < 0.005);
}
