using System.Globalization;
using WireUp.Layouts;

namespace WireUp.Planning.Frogs;

/// <summary>Says in words what a frog needs and why.</summary>
internal static class FrogWords
{
    private const string GapRule =
        "A live frog changes polarity with its points, so both inner rails beyond it are gapped before rail that is fed from elsewhere "
        + "and before another live frog. Common practice, no published source.";

    private const string ContactRule =
        "A frog carries right rail when set for its left leg and left rail when set for its right leg; a contact that moves with the "
        + "points feeds it. Common practice, no published source.";

    internal static Proposal OfGap(HeelGap gap, bool fed) => new(
        $"frog-{gap.Rail.End}",
        ProposalKind.Gap,
        gap.Rail.ToString(),
        $"The frog of '{gap.Turnout.Id}' carries the polarity of the other rail when set for '{gap.OtherLeg}', and here it would meet "
            + (fed
                ? $"the {RailSides.Word(gap.Beyond.Side)} rail of '{gap.Beyond.End.Piece}', which keeps its own. "
                    + "Feed that rail beyond the gap."
                : $"metal over '{gap.Beyond.End.Piece}', which does not follow it."),
        GapRule,
        Cost: 1);

    internal static Proposal OfContact(Piece.Turnout turnout, double deadMetres, double pickupMetres) => new(
        $"frog-{turnout.Id}",
        ProposalKind.FrogContact,
        turnout.Id.ToString(),
        string.Create(
            CultureInfo.InvariantCulture,
            $"The frog of '{turnout.Id}' is dead over {1000 * deadMetres:F0} mm and the shortest pick-up wheel base is ")
            + string.Create(CultureInfo.InvariantCulture, $"{1000 * pickupMetres:F0} mm: engines would stall on it. ")
            + "Take the contact's supply from the same section as the points.",
        ContactRule,
        Cost: 4);

    internal static string OfForbidden(HeelGap gap) =>
        $"The live frog of '{gap.Turnout.Id}' needs a gap at '{gap.Rail}', where none may be cut.";
}
