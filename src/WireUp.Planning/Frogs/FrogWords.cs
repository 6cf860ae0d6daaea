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

    private const string OtherContactRule =
        "A frog in which two tracks meet carries the polarity of the rail that the route set needs there; a contact or an electronic "
        + "changeover feeds it. Common practice, no published source.";

    internal static Proposal OfGap(HeelGap gap, bool fed) => new(
        $"frog-{gap.Rail.End}",
        ProposalKind.Gap,
        gap.Rail.ToString(),
        $"{Follows(gap)}, and here it would meet "
            + (fed
                ? $"the {RailSides.Word(gap.Beyond.Side)} rail of '{gap.Beyond.End.Piece}', which keeps its own. "
                    + "Feed that rail beyond the gap."
                : $"metal over '{gap.Beyond.End.Piece}', which does not follow it."),
        GapRule,
        Cost: 1);

    internal static Proposal OfContact(DeadFrog frog, double pickupMetres) => new(
        $"frog-{frog.Piece.Id}",
        ProposalKind.FrogContact,
        frog.Piece.Id.ToString(),
        string.Create(
            CultureInfo.InvariantCulture,
            $"{Name(frog.Piece)} dead over {1000 * frog.DeadMetres:F0} mm and the shortest pick-up wheel base is ")
            + string.Create(CultureInfo.InvariantCulture, $"{1000 * pickupMetres:F0} mm: engines would stall there. ")
            + Drive(frog.Piece) + "Take its supply from the same section as the rails before it.",
        frog.Piece is Piece.Turnout ? ContactRule : OtherContactRule,
        Cost: 4);

    internal static string OfForbidden(HeelGap gap) =>
        $"The live frog of '{gap.Piece.Id}' needs a gap at '{gap.Rail}', where none may be cut.";

    private static string Follows(HeelGap gap) => gap.From.Against.IsEmpty
        ? $"The frog of '{gap.Piece.Id}' joins rails of both polarities"
        : $"The frog of '{gap.Piece.Id}' carries the polarity of the other rail when set for {List(gap.From.Against)}";

    private static string Name(Piece piece) => piece is Piece.Turnout ? $"The frog of '{piece.Id}' is" : $"Each frog of '{piece.Id}' is";

    /// <summary>What moves the contacts. Which frog belongs to which points follows from the trackwork table.</summary>
    private static string Drive(Piece piece) => piece switch
    {
        Piece.Slip { Drive: SlipDrive.OtherEnd } => "Each points motor drives the contact of the frog at the other end: the motor at a2 and b2 that of "
            + "frog-west, between a1 and b1, and the motor at a1 and b1 that of frog-east. ",
        Piece.Slip { Drive: SlipDrive.OwnEnd } => "The contacts are said to be driven from their own end; drive each from the points at the other end. ",
        Piece.Slip => "A contact of the selected route feeds frog-west and frog-east. ",
        Piece.Crossing => "Nothing moves here: an electronic changeover for each pair of like frogs follows the wheels, or a contact of the route set does. ",
        Piece.Scissors => "Contacts of each crossover's two motors feed its corner frogs and those in the middle. ",
        Piece.MultiTurnout => "Contacts of both or all motors in series choose the polarity of each frog: right rail as long as a leg to the left of it is set. ",
        _ => "",
    };

    private static string List(IEnumerable<string> positions) => string.Join(" or ", positions.Select(position => $"'{position}'"));
}
