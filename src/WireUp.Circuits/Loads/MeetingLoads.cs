using UnitsNet;
using WireUp.Circuits.Devices;
using WireUp.Layouts;

namespace WireUp.Circuits;

/// <summary>
/// What trains draw that chance brings together in each district and behind each booster, by the part of the fed track that they have in the
/// solved circuit (see <see cref="CoincidentLoad"/>). Track for setting up decoders and accessories have no share of it.
/// </summary>
public sealed class MeetingLoads
{
    /// <summary>The current is worked out in steps of this size, each train rounded up: a limit passed by no more is not passed.</summary>
    public static readonly ElectricCurrent Step = ElectricCurrent.FromAmperes(CoincidentLoad.StepAmps);

    private readonly Layout _layout;
    private readonly CoincidentLoad _load;
    private readonly TrackShares _shares;

    private MeetingLoads(Layout layout, CoincidentLoad load, PowerReport power) => (_layout, _load, _shares) = (layout, load, new(layout, power));

    /// <summary>Those of a layout; null where no trains meet, as under direct control.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="power">Its solved circuit.</param>
    public static MeetingLoads? Of(Layout layout, PowerReport power) =>
        CoincidentLoad.Of(layout) is { } load ? new(layout, load, power) : null;

    /// <summary>That of one district; null where it feeds no running track.</summary>
    public ElectricCurrent? OfDistrict(string district) => For(each => each.Name == district);

    /// <summary>That of all districts of one booster together; null where they feed no running track.</summary>
    public ElectricCurrent? OfBooster(string booster) => For(each => each.Booster == booster);

    private ElectricCurrent? For(Func<District, bool> counts)
    {
        double share = _layout.Wiring.Districts.Where(district => counts(district) && district.Use == DistrictUse.Running).Sum(_shares.Of);
        return share > 0 ? _load.For(Math.Min(1, share)) : null;
    }
}
