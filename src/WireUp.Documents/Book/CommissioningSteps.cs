using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>One test.</summary>
/// <param name="Name">Its name.</param>
/// <param name="How">What to do.</param>
/// <param name="Expected">What must come out.</param>
internal sealed record CommissioningStep(string Name, string How, string Expected);

/// <summary>The tests of a new railway in their order: dead first, then with little power, then with all of it.</summary>
internal static class CommissioningSteps
{
    /// <summary>The tests that this layout calls for.</summary>
    public static IEnumerable<CommissioningStep> Of(BookFacts facts) => [.. Dead(facts), .. FirstPower(facts), .. FullPower(facts)];

    private static IEnumerable<CommissioningStep> Dead(BookFacts facts)
    {
        yield return new(
            "Insulation",
            "Power off, booster, breakers and any electronics disconnected, no stock on the rails. Measure between legs A and B of every district, with the turnouts one way and then the other.",
            "more than 100 kΩ; under 10 kΩ is a leak, near 0 a short");
        yield return new(
            "Feeders",
            "Power off. Measure each feeder wire from its tap to its rail, before it is joined to the bus.",
            "less than 0.2 Ω to its own rail, open to the other");
        if (!facts.Wiring.Gaps.IsEmpty)
        {
            yield return new(
                "Gaps",
                Figure.Text($"Power off, feeders not yet joined to the bus. Measure across each of the {facts.Wiring.Gaps.Length} gaps, in each of its rails."),
                "open");
        }

        if (facts.Layout.Track.OfType<Piece.Turnout>().Any(turnout => turnout.Frog != FrogKind.Insulated))
        {
            yield return new(
                "Frogs",
                "Power off. Buzzer from each metal frog to both stock rails, in both positions and slowly through the middle.",
                "always the right stock rail when set to the left and the left one when set to the right; never both");
        }

        if (ContactTable.Of(facts.Layout) is { } table && (!table.Contacts.IsEmpty || !table.Settings.IsEmpty))
        {
            yield return new(
                ContactChapter.Title,
                "Power off. Go through the tables of contacts and switches, position by position.",
                "each joins what its line says, and nothing else; nothing is joined on the way");
        }
    }

    private static IEnumerable<CommissioningStep> FirstPower(BookFacts facts)
    {
        yield return new(
            "First power",
            "One district after the other from a supply limited to 0.5 to 1 A in place of the booster.",
            "full volts, no current to speak of");
        if (facts.Wiring.Districts.Length > 1)
        {
            yield return new(
                "Phase",
                "Volts across every gap between districts, rail A to rail A and rail B to rail B, auto-reversers in their first position.",
                "nearly 0; the full voltage means swapped legs; above 0.5 V means unequal boosters");
        }
    }

    private static IEnumerable<CommissioningStep> FullPower(BookFacts facts)
    {
        yield return new("Volts under load", "As listed below, district by district.", "as listed, to about 0.3 V");
        string not = Names(facts, coin => !coin.TripsInTime) is { Length: > 0 } names ? $" Not in {names}." : string.Empty;
        yield return new("Coin test", $"As listed below, then everywhere else a wheel can stand.{not}", $"{CoinTest.Wanted}, three times out of three");
        if (facts.Wiring.Districts.Length > 1)
        {
            string others = Names(facts, coin => coin.TripsInTime && coin.Protection.BoosterFirst is not null) is { Length: > 0 } late
                ? $"; of {late} the booster may act first (see “Findings”)"
                : string.Empty;
            yield return new("Only its own", $"Coin in one district while trains run in the others.{not}", $"only that district stops{others}");
        }

        if (facts.Layout.Track.Any(piece => piece is Piece.Turntable or Piece.TransferTable))
        {
            yield return new(
                "Bridges",
                "Stand the bridge at every road that is used, of a turntable also turned about. Measure volts between the rails that meet at the edge of the pit, then roll a coach with metal wheels across.",
                "nearly 0 V, or an auto-reverser that turns without a flicker");
        }

        if (facts.Layout.Track.OfType<Piece.Section>().Any(section => section.LiftOut))
        {
            yield return new(
                "Lift-out sections",
                "Take each one out with the power on, a locomotive running towards it from either side; then put it in again.",
                "the locomotive stops well before the hole where its approach is meant to be dead; full volts again afterwards");
        }

        if (facts.Wiring.Districts.Any(district => district.Reversing))
        {
            yield return new("Auto-reversers", "As listed below.", "no stop and no flicker at either border");
        }

        yield return new("Crawl", "The worst locomotive at a crawl over every route, both ways.", "no stop");
        string open = Names(facts, coin => coin.Protection.Restart?.OpensAfter is not null) is { Length: > 0 } again ? $"; as worked out {again} will not (see “Findings”)" : string.Empty;
        yield return new("Restart", "All locomotives on the rails; switch off; switch on.", $"every breaker closes again{open}");
        yield return new("Warmth", "Run the full session for half an hour, then feel joints, taps and devices.", "nothing more than 15 K above the room");
        yield return new("Off", "Use the one switch that cuts every supply.", "everything dead, lamp out");
    }

    private static string Names(BookFacts facts, Func<CoinTest, bool> are) => string.Join(", ", facts.CoinTests.Where(are).Select(coin => facts.District(coin.Power.District)));
}
