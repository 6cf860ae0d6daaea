using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>Contacts that somebody wired so that track can be turned off.</summary>
internal static class OnPurpose
{
    /// <summary>Whether a position is that of a hand switch or a lift-out section, or one for which a feeder or a gap has a contact of its own.</summary>
    internal static bool Is(Layout layout, Setting setting) =>
        layout.Wiring.Switches.Any(item => item.Name == setting.Owner)
        || layout.Track.Any(piece => piece is Piece.Section { LiftOut: true } && piece.Id == setting.Owner)
        || layout.Wiring.Feeders.Any(feeder => feeder.When == setting)
        || layout.Wiring.Gaps.Any(gap => gap.BridgedWhen == setting);
}
