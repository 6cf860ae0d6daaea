using WireUp.Layouts.Reference;

namespace WireUp.Planning;

/// <summary>
/// What proposals are taken to cost against one another where one kind may stand in for another: common practice, no published source. A feeder, its
/// two connections included, is the unit (shared/prices.csv).
/// </summary>
internal static class Prices
{
    /// <summary>A booster.</summary>
    public static double Booster { get; } = PriceTable.Get("booster").Value;

    /// <summary>The supply that each booster has.</summary>
    public static double Supply { get; } = PriceTable.Get("supply").Value;

    /// <summary>A feeder with its connections.</summary>
    public static double Feeder { get; } = PriceTable.Get("feeder").Value;

    /// <summary>A change of a feeder that is built.</summary>
    public static double ReworkOfFeeder { get; } = PriceTable.Get("rework-feeder").Value;

    /// <summary>The terminal strips, one for each leg, of a point of the bus.</summary>
    public static double TerminalStrip { get; } = PriceTable.Get("terminal-strip").Value;
}
