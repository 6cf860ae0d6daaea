using System.Globalization;

namespace WireUp.Planning;

/// <summary>How every exact choice is solved, so that it repeats exactly.</summary>
internal static class SolverSettings
{
    /// <summary>
    /// One worker, a fixed seed and a limit in deterministic seconds repeat exactly; linear relaxation level 2 is what proves parity models and
    /// covers of paths (measured).
    /// </summary>
    /// <param name="seconds">Deterministic seconds that the solver may take.</param>
    public static string For(double seconds) =>
        string.Create(CultureInfo.InvariantCulture, $"num_workers:1 linearization_level:2 random_seed:7 max_deterministic_time:{seconds}");
}
