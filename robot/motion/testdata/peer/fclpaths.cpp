// Looks at joint paths in fine steps through the Flexible Collision Library.
// After the scene (scene.hpp): step, paths P, then for each: n and n postures.
// Prints for each path 1 where nothing touches anywhere, else 0 and the length
// along the path at which something does.
#include "scene.hpp"

int main() {
  Scene scene;
  scene.read();
  double step = number();
  size_t joints = scene.origins.size();
  for (int p = heading("paths"); p > 0; p--) {
    int n = int(number());
    std::vector<double> q(n * joints), at(joints);
    for (double& x : q) x = number();
    double along = 0;
    bool clear = scene.valid(q.data());
    for (int i = 1; i < n && clear; i++) {
      double *a = &q[(i - 1) * joints], *b = &q[i * joints], sum = 0;
      for (size_t j = 0; j < joints; j++) sum += (b[j] - a[j]) * (b[j] - a[j]);
      double d = std::sqrt(sum);
      int pieces = std::max(1, int(std::ceil(d / step)));
      for (int k = 1; k <= pieces && clear; k++) {
        for (size_t j = 0; j < joints; j++) at[j] = a[j] + (b[j] - a[j]) * k / pieces;
        clear = scene.valid(at.data());
        along += d / pieces;
      }
    }
    std::cout << (clear ? 1 : 0) << " " << along << "\n";
  }
}
