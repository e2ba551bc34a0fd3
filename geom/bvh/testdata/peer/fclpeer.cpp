// Answers from the Flexible Collision Library, one a line, to questions on
// standard input, words parted by white space, lengths in m, poses as the 12
// numbers of a 3 x 4 matrix row by row, b's frame in a's:
//
//   mesh NAME VERTICES TRIANGLES  x y z ...  i j k ...
//   solid NAME box X Y Z | cylinder R L | sphere R | capsule R L | cone R L
//   touch A B POSE       ->  1 or 0
//   distance A B POSE    ->  distance, 0 where they touch, and 6 numbers: points of A and B
//   under A B POSE D     ->  distance if below D, else -1
#include <fcl/geometry/bvh/BVH_model.h>
#include <fcl/geometry/shape/box.h>
#include <fcl/geometry/shape/capsule.h>
#include <fcl/geometry/shape/cone.h>
#include <fcl/geometry/shape/cylinder.h>
#include <fcl/geometry/shape/sphere.h>
#include <fcl/narrowphase/collision.h>
#include <fcl/narrowphase/distance.h>

#include <cstdio>
#include <iostream>
#include <map>
#include <memory>
#include <string>
#include <vector>

namespace {

using Form = std::shared_ptr<fcl::CollisionGeometryd>;

double number() {
  double x;
  if (!(std::cin >> x)) {
    std::cerr << "a number was expected\n";
    std::exit(2);
  }
  return x;
}

Form mesh() {
  std::vector<fcl::Vector3d> vertices(static_cast<size_t>(number()));
  std::vector<fcl::Triangle> triangles(static_cast<size_t>(number()));
  for (auto &v : vertices)
    for (int k = 0; k < 3; k++) v[k] = number();
  for (auto &t : triangles) {
    size_t i = number(), j = number(), k = number();
    t.set(i, j, k);
  }
  auto model = std::make_shared<fcl::BVHModel<fcl::OBBRSSd>>();
  model->beginModel();
  model->addSubModel(vertices, triangles);
  model->endModel();
  return model;
}

Form solid(const std::string &kind) {
  double a = number();
  if (kind == "sphere") return std::make_shared<fcl::Sphered>(a);
  double b = number();
  if (kind == "cylinder") return std::make_shared<fcl::Cylinderd>(a, b);
  if (kind == "capsule") return std::make_shared<fcl::Capsuled>(a, b);
  if (kind == "cone") return std::make_shared<fcl::Coned>(a, b);
  if (kind == "box") return std::make_shared<fcl::Boxd>(a, b, number());
  std::cerr << "no solid is called " << kind << "\n";
  std::exit(2);
}

fcl::Transform3d pose() {
  fcl::Transform3d t = fcl::Transform3d::Identity();
  for (int r = 0; r < 3; r++)
    for (int c = 0; c < 4; c++) t.matrix()(r, c) = number();
  return t;
}

}  // namespace

int main() {
  std::ios::sync_with_stdio(false);
  std::map<std::string, Form> forms;
  const fcl::Transform3d here = fcl::Transform3d::Identity();
  for (std::string word, a, b; std::cin >> word >> a;) {
    if (word == "mesh") {
      forms[a] = mesh();
      continue;
    }
    std::cin >> b;
    if (word == "solid") {
      forms[a] = solid(b);
      continue;
    }
    const auto *one = forms.at(a).get(), *two = forms.at(b).get();
    const fcl::Transform3d at = pose();
    if (word == "touch") {
      fcl::CollisionRequestd question;
      fcl::CollisionResultd answer;
      std::printf("%d\n", fcl::collide(one, here, two, at, question, answer) > 0);
      continue;
    }
    fcl::DistanceRequestd question(true);
    question.rel_err = question.abs_err = 0;
    fcl::DistanceResultd answer;
    const double limit = word == "under" ? number() : 0;
    if (limit > 0) answer.min_distance = limit;
    double d = fcl::distance(one, here, two, at, question, answer);
    if (limit > 0) {
      std::printf("%.17g\n", d < limit ? std::max(d, 0.0) : -1.0);
      continue;
    }
    const auto &p = answer.nearest_points;
    std::printf("%.17g %.17g %.17g %.17g %.17g %.17g %.17g\n", std::max(d, 0.0), p[0][0], p[0][1], p[0][2], p[1][0],
                p[1][1], p[1][2]);
  }
}
