using WireUp.Circuits;

namespace WireUp.Planning.Devices;

/// <summary>
/// How little a place follows the resistance of a run at least, from the currents in the run in two circuits: with the thickest wire everywhere, and with the
/// wire that leaves the run least current.
/// </summary>
/// <remarks>
/// Resistance seen grows by the square of the current for each ohm. A run on the way to the place carries least in the second circuit. In a run
/// beside the way, current that comes along the rails can flow back towards the booster: then it is none for some wire between the two, and only nothing is sure.
/// </remarks>
internal static class LeastSlope
{
    /// <summary>Rounding: where nothing passes a run by, both circuits have the same current in it.</summary>
    private const double Same = 1e-9;

    /// <summary>For the resistance seen, Ω for each Ω in both wires.</summary>
    /// <param name="thick">Currents with the thickest wire everywhere.</param>
    /// <param name="passedBy">Currents where most of it can pass the run by.</param>
    public static double OfLoop(RunFlow thick, RunFlow passedBy) =>
        Square(Least(thick.UnitA, passedBy.UnitA)) + Square(Least(thick.UnitB, passedBy.UnitB));

    /// <summary>For the drop under the design load, V for each Ω in both wires.</summary>
    /// <param name="thick">Currents with the thickest wire everywhere.</param>
    /// <param name="passedBy">Currents where most of it can pass the run by.</param>
    /// <param name="trainAmps">Current of the train at the place.</param>
    public static double OfDrop(RunFlow thick, RunFlow passedBy, double trainAmps) =>
        OfWire(thick.UnitA, passedBy.UnitA, thick.SpreadA, passedBy.SpreadA, trainAmps)
        + OfWire(thick.UnitB, passedBy.UnitB, thick.SpreadB, passedBy.SpreadB, trainAmps);

    /// <summary>j·(I·j + s) where train and spread load flow the same way; else the least that it can be for any j, −s²/4I.</summary>
    private static double OfWire(double unitThick, double unitPassed, double spreadThick, double spreadPassed, double trainAmps)
    {
        double unit = Least(unitThick, unitPassed), spread = Least(spreadThick, spreadPassed);
        bool isWithTrain = unit != 0 && spread * unit >= 0 && spreadThick * unitThick >= 0 && spreadPassed * unitPassed >= 0;
        double against = Math.Max(Math.Abs(spreadThick), Math.Abs(spreadPassed));
        return isWithTrain ? unit * ((trainAmps * unit) + spread) : trainAmps > 0 ? -Square(against) / (4 * trainAmps) : 0;
    }

    /// <summary>The current where it is passed by, if that is no more and flows the same way; else none.</summary>
    private static double Least(double thick, double passedBy) =>
        thick * passedBy > 0 && Math.Abs(passedBy) <= Math.Abs(thick) + Same ? passedBy : 0;

    private static double Square(double value) => value * value;
}
