namespace WireUp.Planning;

/// <summary>
/// What proposals are taken to cost against one another where one kind may stand in for another: common practice, no published source. A feeder, its
/// two connections included, is the unit.
/// </summary>
internal static class Prices
{
    /// <summary>A booster.</summary>
    public const double Booster = 100;

    /// <summary>The supply that each booster has.</summary>
    public const double Supply = 30;

    /// <summary>A feeder with its connections.</summary>
    public const double Feeder = 1;
}
